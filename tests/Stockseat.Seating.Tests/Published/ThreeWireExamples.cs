namespace Stockseat.Seating.Tests.Published;

/// <summary>
/// Origins. Metric: a page of codingace with worked three-wire examples; its address was not noted. Best wire: Fox Valley Technical College, its.fvtc.edu (the
/// 1.250-5 Acme); US Army, OD1645, page 124, armyordnance.tpub.com (US Government work). No dates. Licence: none stated but for the last; numbers only.
/// Read, not from memory.
/// </summary>
public static class ThreeWireExamples
{
    /// <summary>Metric 60° threads, millimetres: diameter, pitch, wire, over three wires. Tolerance 2e-6: the page's constants have six digits.</summary>
    public static TheoryData<double, double, double, double> Metric => new()
    {
        { 8, 1.25, 0.721688, 8.270633 },
        { 10, 1.5, 0.866025, 10.324760 },
        { 12, 1.75, 1.010363, 12.378887 },
    };

    /// <summary>The best wire in inches: included angle in degrees, threads per inch, diameter, tolerance.</summary>
    public static TheoryData<double, double, double, double> BestWire => new()
    {
        { 29, 5, 0.10329, 5e-6 }, // FVTC, 1.250-5 Acme
        { 60, 8, 0.072, 5e-4 },   // OD1645, printed to three digits
    };
}

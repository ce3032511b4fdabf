namespace Stockseat.Seating.Tests.Published;

/// <summary>
/// Origin: a sheet of three-wire constants, scribd.com/document/582762296. Edition: as stored there, undated. Licence: none stated; numbers only.
/// Read, not from memory. Per thread form: best wire over the pitch, wire coefficient, pitch coefficient.
/// Digits: half a unit of the last place printed. The 53°08′ form (Löwenherz) is taken at 53°08′, as printed, and its "1" as one digit.
/// </summary>
public static class ThreeWireConstants
{
    public static TheoryData<double, double, double, double, double, double, double> Rows => new()
    {
        // included angle in degrees; best wire, tolerance; wire coefficient, tolerance; pitch coefficient, tolerance
        { 60, 0.57735, 5e-6, 3, 5e-6, 0.86603, 5e-6 },
        { 55, 0.56369, 5e-6, 3.16568, 5e-6, 0.96049, 5e-6 },
        { 47.5, 0.54626, 5e-6, 3.4829, 6e-5, 1.13634, 5e-6 }, // exact 3.48295, printed cut off
        { 29, 0.51645, 5e-6, 4.9939, 5e-5, 1.933357, 5e-7 },
        { 53 + 8 / 60.0, 0.55902, 5e-6, 3.23594, 5e-6, 1, 5e-4 },
    };
}

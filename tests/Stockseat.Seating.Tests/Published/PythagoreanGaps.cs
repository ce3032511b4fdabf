namespace Stockseat.Seating.Tests.Published;

/// <summary>
/// Origin: the right triangles 3-4-5, 7-24-25, 11-60-61 and 5-12-13. Edition, licence: none, mathematics. Exact, neither read nor from memory.
/// Equal pins with a gap, millimetres: pin radius, spacing, R, v, dv/dR.
/// </summary>
public static class PythagoreanGaps
{
    public static TheoryData<double, double, double, double, string> Rows => new()
    {
        { 5, 60, 45, 40, "5/4" },
        { 5, 48, 20, 7, "25/7" },
        { 8, 120, 53, 11, "61/11" },
        { 4, 24, 9, 5, "13/5" },
    };
}

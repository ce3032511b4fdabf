namespace Stockseat.Seating.Tests.Published;

/// <summary>
/// Origins: OEIS A274550 and A290931 (CC BY-SA); J. Kocik, arXiv 2008.04440 (Descartes' theorem); mysimulator.uk for (−1, 2, 2, 3) and 15. Editions: as stored.
/// Read, not from memory. Curvatures of four circles that all touch each other: integers, so exact. Two are pins, the other two are stock.
/// </summary>
public static class TouchingCircles
{
    public static TheoryData<int, int, int, int> Quadruples => new()
    {
        // pin, pin, stock, smaller stock
        { 1, 1, 4, 12 },
        { 2, 2, 3, 15 },
        { 2, 3, 6, 23 },
        { 1, 1, 12, 24 },
        { 1, 4, 9, 28 },
    };

    /// <summary>From the same curvatures, computed as fractions: pins r₁ and r₂ in contact, stock R, centre from pin 1.</summary>
    public static TheoryData<string, string, string, string, string> Seats => new()
    {
        { "1/2", "1/2", "1/3", "1/2", "2/3" },
        { "1/2", "1/2", "1/15", "1/2", "4/15" },
        { "1", "1", "1/4", "1", "3/4" },
        { "1", "1", "1/12", "1", "5/12" },
        { "1", "1", "1/24", "1", "7/24" },
        { "1/2", "1/3", "1/6", "8/15", "2/5" },
        { "1/2", "1/3", "1/23", "117/230", "22/115" },
        { "1", "1/4", "1/9", "16/15", "14/45" },
        { "1", "1/4", "1/28", "143/140", "6/35" },
        { "1/6", "1/3", "1/23", "7/46", "10/69" },
        { "1/3", "1/6", "1/23", "8/23", "10/69" },
    };
}

namespace Stockseat.Seating.Tests.Published;

/// <summary>
/// Origin: L. R. Ford, Fractions, American Mathematical Monthly 45 (1938). Licence: a theorem. From memory; exact.
/// The circle of p/q has radius 1/(2q²), its centre at (p/q, 1/(2q²)); all touch the line, and those of a/b and c/d touch each other when |ad − bc| = 1.
/// </summary>
public static class FordCircles
{
    public static TheoryData<int, int, int, int> Neighbours => new()
    {
        // pin a/b, stock c/d
        { 0, 1, 1, 1 },
        { 0, 1, 1, 2 },
        { 1, 2, 0, 1 },
        { 1, 1, 1, 2 },
        { 1, 3, 1, 2 },
        { 2, 3, 1, 2 },
        { 1, 2, 2, 3 },
        { 2, 5, 1, 3 },
        { 3, 8, 2, 5 },
    };
}

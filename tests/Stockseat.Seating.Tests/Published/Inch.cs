namespace Stockseat.Seating.Tests.Published;

/// <summary>
/// Origin: National Bureau of Standards, Circular 572 addendum: the yard is exactly 0.9144 m, so the inch 25.4 mm. Edition: 1960, in effect since 1959-07-01.
/// Licence: US public domain. Read (stored text), not from memory. The rows are multiples of it, exact in decimal.
/// </summary>
public static class Inch
{
    public static TheoryData<string, string> InMillimetres => new()
    {
        { "1 in", "25.4 mm" },
        { "36 in", "914.4 mm" },
        { "0.001 in", "0.0254 mm" },
        { "0.015625 in", "0.396875 mm" }, // 1/64
        { "0.625 in", "15.875 mm" },
        { "0.75in", "19.05mm" },
        { "1.25 in", "31.75 mm" },
        { "3.638 in", "92.4052 mm" },
    };
}

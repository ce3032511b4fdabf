using Stockseat.Service.Pages.Measure;

namespace Stockseat.Service.Tests.Pages;

/// <summary>What people type from a caliper.</summary>
public sealed class TypedReadingTests
{
    [Theory]
    [InlineData("92.4", "mm", 0.0924, "92.4 mm")]
    [InlineData("92,40", "mm", 0.0924, "92,40 mm")]
    [InlineData("  3.638 ", "in", 0.0924052, "3.638 in")]
    [InlineData("3,638 in", "in", 0.0924052, "3,638 in")]
    [InlineData("3.638\"", "in", 0.0924052, "3.638 in")]
    [InlineData(".500", "in", 0.0127, ".500 in")]
    [InlineData("92.4MM", "mm", 0.0924, "92.4 mm")]
    public void A_point_and_a_comma_are_both_understood(string typed, string unit, double metres, string sent)
    {
        Assert.Null(TypedReading.Read(typed, unit, "Reading 1", out var reading));
        Assert.Equal((metres, sent), (reading.Metres, reading.Sent));
    }

    [Theory]
    [InlineData("3.638 in", "mm", "Reading 2, '3.638 in', has a unit of its own, and mm was chosen; choose the unit that the caliper shows")]
    [InlineData("92.4 mm", "in", "has a unit of its own, and in was chosen")]
    [InlineData("92.4 cm", "mm", "has a unit of its own, and mm was chosen")]
    [InlineData("1,092.4", "mm", "'1,092.4', is not understood; a plain number such as 92.4 or 92,4 was expected")]
    [InlineData("1.092,4", "mm", "is not understood")]
    [InlineData("92..4", "mm", "is not understood")]
    [InlineData("92.", "mm", "is not understood")]
    [InlineData("-92.4", "mm", "is not understood")]
    [InlineData("9e1", "mm", "is not understood")]
    [InlineData("3 5/8", "in", "a plain number such as 3.638 or 3,638 was expected")]
    [InlineData("\u0669\u0662", "mm", "is not understood")]
    [InlineData("0", "mm", "is not above 0 and up to 10 m")]
    [InlineData("10000.1", "mm", "is not above 0 and up to 10 m")]
    [InlineData("mm", "mm", "is not understood")]
    public void Whatever_may_be_meant_in_two_ways_is_a_fault(string typed, string unit, string fault) =>
        Assert.Contains(fault, TypedReading.Read(typed, unit, "Reading 2", out _), StringComparison.Ordinal);
}

using Stockseat.Service.Gauges;

namespace Stockseat.Service.Tests.Gauges;

public class LinePatternTests
{
    private const string Usual = "(?<reading>[0-9]+,[0-9]+)";

    [Theory]
    [InlineData(Usual, "92,40", "92,40", null, null)]
    [InlineData(@"[A-Z]*\s*(?<reading>[0-9.]+)\s*(?<unit>mm|in)?", "D 92.40 mm", "92.40", "mm", null)]
    [InlineData(@"(?<lot>\w+);(?<reading>[0-9.]+)", "L7;92.40", "92.40", null, "L7")]
    [InlineData(@"A(?<reading>[0-9]+)|B(?<reading>[0-9]+)", "B92", "92", null, null)]
    [InlineData(@"92|(?<reading>92\.40)", "92.40", "92.40", null, null)]
    [InlineData(@"(?<reading>[0-9.]+)(?!.*OL).*", "92.40 OK", "92.40", null, null)]
    public void A_whole_line_matches(string pattern, string line, string reading, string? unit, string? lot)
    {
        Assert.Null(Parse(pattern).Match(line, out var found));
        Assert.Equal(new(reading, unit, lot), found);
    }

    [Theory]
    [InlineData(Usual, "92,40 92,41")]
    [InlineData(Usual, "192,40 ")]
    [InlineData(Usual, "92,40\n")]
    [InlineData(Usual, "92.40")]
    [InlineData(Usual, "OL")]
    [InlineData(Usual, "9999,99E")]
    [InlineData(Usual, "\u0669\u0662,\u0664\u0660")]
    [InlineData("(?:(?<reading>[0-9]+,[0-9]+) ?)+", "92,40 92,41")]
    [InlineData("(?<reading>[0-9]+) (?<reading>[0-9]+)", "92 93")]
    [InlineData("92(?<reading>,40)?", "92")]
    public void Anything_else_does_not_match(string pattern, string line) => Assert.Equal(PortCause.NoMatch, Parse(pattern).Match(line, out _));

    [Theory]
    [InlineData(Usual, true)]
    [InlineData("(?=1)(?<reading>[0-9]+)", false)]
    [InlineData(@"(?<unit>m+)(?<reading>[0-9]+)\k<unit>", false)]
    public void A_pattern_that_needs_no_backtracking_runs_without_it(string pattern, bool linear) => Assert.Equal(linear, Parse(pattern).Linear);

    [Theory]
    [InlineData("(?=(?:[0-9]|[0-9][0-9])+$)(?<reading>[0-9!]+)")]
    [InlineData("(?!(?:[0-9]|[0-9][0-9])+$)(?:[0-9]|[0-9][0-9])+(?<reading>x)")]
    public void A_pattern_that_backtracks_endlessly_is_stopped(string pattern) =>
        Assert.Equal(PortCause.PatternTimeout, Parse(pattern).Match(new string('1', 200) + "!", out _));

    [Fact]
    public void The_same_pattern_without_a_look_around_does_not_have_to_be_stopped() =>
        Assert.Equal(PortCause.NoMatch, Parse("(?:[0-9]|[0-9][0-9])+(?<reading>x)").Match(new string('1', 200) + "!", out _));

    [Theory]
    [InlineData("[0-9]+", "has no group reading")]
    [InlineData("([0-9]+)", "has no group reading")]
    [InlineData("(?<reading>[0-9]+)(?<diameter>x)", "has a group diameter; reading, unit, lot")]
    [InlineData("(?<reading>[0-9]+)(?<7>x)", "has a group 7")]
    [InlineData("(?<reading>[0-9]+", "is not a regular expression")]
    [InlineData("(?<reading>a)|b)|(?:c", "is not a regular expression")]
    [InlineData("(?x)(?<reading>a) # b", "is not a regular expression")]
    public void A_fault_is_reported(string pattern, string expected)
    {
        Assert.Null(LinePattern.Parse(pattern, out var fault));
        Assert.Contains(expected, fault, StringComparison.Ordinal);
    }

    private static LinePattern Parse(string text)
    {
        var pattern = LinePattern.Parse(text, out var fault);
        Assert.Null(fault);
        return pattern!;
    }
}

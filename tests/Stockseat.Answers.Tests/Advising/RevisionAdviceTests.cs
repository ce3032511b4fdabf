using Stockseat.Answers.Advising;
using Stockseat.Answers.Tests.Support;
using Stockseat.Seating.Quantities;

namespace Stockseat.Answers.Tests.Advising;

public class RevisionAdviceTests
{
    private const string Known = """ "uncertainty": { "askedDiameter": "0.05 mm", "teaching": "0.1 mm" }, """;

    [Fact]
    public void A_sound_revision_needs_no_advice() => Assert.Empty(Advice("""{ "diameter": [ "60 mm", "100 mm" ] }""", Known));

    [Fact]
    public void A_radius_that_would_be_answered_as_a_diameter_is_reported_with_its_range()
    {
        var advice = Assert.Single(Advice("""{ "diameter": [ "50 mm", "120 mm" ] }""", Known));

        Assert.StartsWith("a radius taken for a diameter would not be noticed: stock of 100", advice, StringComparison.Ordinal);
        Assert.Contains("to 120 mm would be taken for 50", advice, StringComparison.Ordinal);
    }

    /// <summary>No diameter fits at half of the largest: 59.9 mm is below the smallest allowed.</summary>
    [Fact]
    public void A_radius_that_would_be_refused_is_not_reported() => Assert.Empty(Advice("""{ "diameter": [ "60 mm", "119.8 mm" ] }""", Known));

    [Fact]
    public void A_tenth_and_an_inch_value_are_reported_where_they_fit()
    {
        // A deep vee can take any diameter.
        var file = Revisions.Good(nest: """{ "vee": { "includedAngle": "90 deg" } }""", extra: Known, limits: """{ "diameter": [ "2 mm", "200 mm" ] }""");
        var advice = RevisionAdvice.Of(file.Reading.Revision!, 0.08, null, LengthUnit.Millimetre).ToArray();

        Assert.Equal(["a radius", "a diameter", "an inch"], advice.Select(a => string.Join(' ', a.Text.Split(' ')[..2])));
    }

    [Theory]
    [InlineData("{}", "", "no uncertainty is stated, so answers can't say")]
    [InlineData("{}", "", "limits.diameter is not stated")]
    [InlineData("{}", "", "no limits.recheck is stated, and no uncertainty")]
    [InlineData("""{ "uncertainty": "1 mm" }""", "", "every ask will be refused")]
    [InlineData("""{ "uncertainty": "1 mm" }""", """ "uncertainty": { "teaching": "0.1 mm" }, """,
        "and such asks will be refused. State uncertainty.askedDiameter")]
    [InlineData("""{ "uncertainty": "0.1 mm" }""", Known, "U (k = 2) is 0.122 mm at 80 mm, above limits.uncertainty 0.1 mm")]
    [InlineData("{}", """ "uncertainty": { "askedDiameter": "0.05 mm", "lean": "1 deg" }, """, "uncertainty.lean is stated without leanHeight")]
    public void Surprising_values_are_reported(string limits, string extra, string said) =>
        Assert.Contains(Advice(limits, extra), a => a.Contains(said, StringComparison.Ordinal));

    private static string[] Advice(string limits, string extra) =>
        [.. RevisionAdvice.Of(Revisions.Good(limits: limits, extra: extra).Reading.Revision!, 0.08, null, LengthUnit.Millimetre).Select(f => f.Text)];
}

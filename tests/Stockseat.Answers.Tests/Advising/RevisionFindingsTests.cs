using Stockseat.Answers.Advising;
using Stockseat.Answers.Tests.Support;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Quantities;

namespace Stockseat.Answers.Tests.Advising;

public class RevisionFindingsTests
{
    private const string Known = """ "uncertainty": { "askedDiameter": "0.05 mm", "teaching": "0.1 mm" }, """;
    private const string Range = """{ "diameter": [ "60 mm", "100 mm" ] }""";

    [Fact]
    public void When_the_reader_finds_faults_only_these_are_reported() =>
        Assert.All(Of(Revisions.Broken(1)), f => Assert.Equal(Severity.Fault, f.Severity));

    [Fact]
    public void Faults_of_the_envelope_come_before_the_advice()
    {
        var findings = Of(Revisions.Good(limits: """{ "diameter": [ "20 mm", "100 mm" ] }"""));

        Assert.Equal([Severity.Fault, Severity.Advice], findings.Select(f => f.Severity).Distinct());
        Assert.Contains(findings, f => f.Severity == Severity.Fault && f.Text.StartsWith("limits.diameter begins at 20 mm", StringComparison.Ordinal));
        Assert.Contains(findings, f => f.Where == "uncertainty");
    }

    [Fact]
    public void A_revision_that_changes_nothing_is_reported() =>
        Assert.Equal("revision", Assert.Single(Of(Revisions.Good(2, extra: Known, limits: Range), Revisions.Good(1, extra: Known, limits: Range))).Where);

    [Fact]
    public void A_copied_calibration_is_reported() =>
        Assert.Equal("calibrated", Assert.Single(Of(Revisions.Good(2, extra: Known, limits: Range, standOff: "0.4 mm"),
            Revisions.Good(1, extra: Known, limits: Range))).Where);

    private static IReadOnlyList<Finding> Of(RevisionFile file, RevisionFile? previous = null) =>
        RevisionFindings.Of(file.Reading, previous?.Reading, null, null, LengthUnit.Millimetre);
}

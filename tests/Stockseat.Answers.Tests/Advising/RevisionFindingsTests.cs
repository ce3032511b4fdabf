using Stockseat.Answers.Advising;
using Stockseat.Answers.Tests.Support;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Quantities;

namespace Stockseat.Answers.Tests.Advising;

public class RevisionFindingsTests
{
    private static readonly (string, string) Second = ("\"revision\": 1,", "\"revision\": 2,");

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
        Assert.Equal("revision", Assert.Single(Of(Racks.With(Second), Racks.Right)).Where);

    [Fact]
    public void A_copied_calibration_is_reported() =>
        Assert.Equal("calibrated", Assert.Single(Of(Racks.With(Second, ("\"gap\": \"0.5 mm\"", "\"gap\": \"0.6 mm\"")), Racks.Right)).Where);

    private static IReadOnlyList<Finding> Of(RevisionFile file, RevisionFile? previous = null) =>
        RevisionFindings.Of(file.Reading, previous?.Reading, null, null, LengthUnit.Millimetre);
}

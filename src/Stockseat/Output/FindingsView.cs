using Stockseat.Answers.Advising;
using Stockseat.Cli.Output.Shapes;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Cli.Output;

/// <summary>What a check of a revision found, and what the revision changes from the one before.</summary>
internal static class FindingsView
{
    public static void Print(IReadOnlyList<Finding> findings)
    {
        foreach (var finding in findings)
        {
            Plain.Line(finding.Severity == Severity.Fault ? $"  fault: {finding.Text}" : $"  advice: {finding.Text}.");
        }
    }

    public static FindingShape Of(Finding finding) => new(finding.Severity == Severity.Fault ? "fault" : "advice", finding.Where, finding.Text);

    public static void Print(Revision previous, IReadOnlyList<RevisionChange> changes)
    {
        Plain.Line("");
        Plain.Line($"Changes from revision {previous.Number}: {(changes.Count == 0 ? "none" : "")}".TrimEnd());
        if (changes.Count > 0)
        {
            Plain.Table(["key", "before", "after"], changes.Select(c => (IReadOnlyList<string>)[c.Key, c.Before ?? "not stated", c.After ?? "not stated"]));
        }
    }

    public static ChangesShape Of(Revision previous, IReadOnlyList<RevisionChange> changes) =>
        new(previous.Number, changes.Select(c => new ChangeShape(c.Key, c.Before, c.After)));
}

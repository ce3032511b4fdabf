using System.Text.Json.Nodes;
using Stockseat.Answers.Advising;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Cli.Output;

/// <summary>What a check of a revision found, and what the revision changes against the one before.</summary>
internal static class FindingsView
{
    public static void Print(IReadOnlyList<Finding> findings)
    {
        foreach (var finding in findings)
        {
            Plain.Line(finding.Severity == Severity.Fault ? $"  fault: {finding.Text}" : $"  advice: {finding.Text}.");
        }
    }

    /// <summary>The faults, the advice, and both in one list with what they are about.</summary>
    public static void Add(JsonObject value, IReadOnlyList<Finding> findings)
    {
        value["faults"] = Json.Array(findings.Where(f => f.Severity == Severity.Fault), f => JsonValue.Create(f.Text));
        value["advice"] = Json.Array(findings.Where(f => f.Severity == Severity.Advice), f => JsonValue.Create(f.Text));
        value["findings"] = Json.Array(findings, Of);
    }

    public static void Print(Revision previous, IReadOnlyList<RevisionChange> changes)
    {
        Plain.Line("");
        Plain.Line($"Changes from revision {previous.Number}: {(changes.Count == 0 ? "none" : "")}".TrimEnd());
        if (changes.Count > 0)
        {
            Plain.Table(["key", "before", "after"], changes.Select(c => (IReadOnlyList<string>)[c.Key, c.Before ?? "not stated", c.After ?? "not stated"]));
        }
    }

    public static JsonObject Of(Revision previous, IReadOnlyList<RevisionChange> changes) =>
        new() { ["from"] = previous.Number, ["keys"] = Json.Array(changes, Of) };

    private static JsonObject Of(Finding finding)
    {
        var value = new JsonObject { ["severity"] = finding.Severity == Severity.Fault ? "fault" : "advice" };
        if (finding.Where is { } where)
        {
            value["where"] = where;
        }

        value["text"] = finding.Text;
        return value;
    }

    private static JsonObject Of(RevisionChange change)
    {
        var value = new JsonObject { ["key"] = change.Key };
        if (change.Before is { } before)
        {
            value["before"] = before;
        }

        if (change.After is { } after)
        {
            value["after"] = after;
        }

        return value;
    }
}

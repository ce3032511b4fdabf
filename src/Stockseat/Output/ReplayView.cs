using System.Globalization;
using Stockseat.Audit.Replaying;
using Stockseat.Cli.Output.Shapes;

namespace Stockseat.Cli.Output;

/// <summary>What a replay found, for people and for machines.</summary>
internal static class ReplayView
{
    /// <summary>Prints the result and returns the exit code.</summary>
    public static int Print(ReplayResult r, bool json)
    {
        if (json)
        {
            Json.Line(Of(r));
            return r.ExitCode;
        }

        Plain.Line(Verdict(r));
        foreach (var difference in r.Differences)
        {
            Plain.Line(string.Create(CultureInfo.InvariantCulture, $"entry {difference.Serial}, {difference.Kind}: {difference.Text}"));
            foreach (var field in difference.Fields)
            {
                Plain.Line($"  {field.Path}: recorded {Said(field.Recorded)}, recomputed {Said(field.Recomputed)}");
            }
        }

        if (r.MoreDifferences > 0)
        {
            Plain.Line(string.Create(CultureInfo.InvariantCulture, $"and {r.MoreDifferences} more entries that do not come out the same"));
        }

        if (r.Unreadable is { } unreadable && r.ExitCode != ExitCodes.Failed)
        {
            Plain.Line($"could not be replayed: {unreadable}");
        }

        return r.ExitCode;
    }

    /// <summary>The result as one object, for programs.</summary>
    public static ReplayShape Of(ReplayResult r) => new(
        r.Agrees, r.First, r.Last, r.Answers, r.Refusals, r.Others, r.Same, r.Within, r.Given,
        r.Differences.Select(
            d => new DifferenceShape(d.Serial, d.Kind, d.Text, d.Fields.Select(f => new FieldShape(f.Path, Value(f.Recorded), Value(f.Recomputed))))),
        r.MoreDifferences, r.Unreadable);

    private static string Verdict(ReplayResult r)
    {
        var all = r.Answers + r.Refusals + r.Others;
        var of = $"{Count(all, "decided entry", "decided entries")} of {Count(r.First)} to {Count(r.Last)}: {Count(r.Answers, "answer", "answers")}, "
            + $"{Count(r.Refusals, "refusal", "refusals")}, {Count(r.Others)} of other kinds";
        var how = string.Create(
            CultureInfo.InvariantCulture,
            $"{r.Same} bit for bit{(r.Within > 0 ? $", {r.Within} of another version of the program within {LedgerReplay.Tolerance}" : "")}; {r.Given} "
                + $"rest{(r.Given == 1 ? "s" : "")} on facts that no ledger holds and were taken as recorded");
        var differ = r.Differences.Count + r.MoreDifferences;
        return r.ExitCode switch
        {
            0 => $"the same: {of}; {how}",
            1 => string.Create(CultureInfo.InvariantCulture, $"not the same: {differ} of {of}; {how}"),
            _ when r.First == 0 => $"could not be replayed: {r.Unreadable}",
            _ => $"could not be replayed: {r.Unreadable}; the entries before that came out the same: {of}; {how}",
        };
    }

    private static string Count(long count, string one, string many) => $"{Count(count)} {(count == 1 ? one : many)}";

    private static string Count(long count) => count.ToString(CultureInfo.InvariantCulture);

    private static string Said(string json) => json.Length == 0 ? "nothing" : json;

    private static string? Value(string json) => json.Length == 0 ? null : json;
}

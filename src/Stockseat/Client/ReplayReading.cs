using Stockseat.Answers.Explaining;
using Stockseat.Ledger.Replaying;
using Stockseat.V1;

namespace Stockseat.Cli.Client;

/// <summary>What a replay found, as the service told it.</summary>
internal static class ReplayReading
{
    public static ReplayResult Of(ReplayResponse r) => new(
        r.First, r.Last, r.Answers, r.Refusals, r.Others, r.Same, r.Within, r.Given,
        [.. r.Differences.Select(d => new Ledger.Replaying.ReplayDifference(d.Serial, d.Kind, d.Text, [.. d.Fields.Select(f => new Ledger.Replaying.FieldDifference(f.Path, f.Recorded, f.Recomputed))]))],
        r.MoreDifferences, r.Unreadable.Length == 0 ? null : r.Unreadable);

    public static Working Working(long serial, ReplayResponse r) => new(
        serial,
        [.. r.Working.Select(s => new Answers.Explaining.WorkingSection(s.Title, [.. s.Lines.Select(l => new Answers.Explaining.WorkingLine(l.Symbol, l.Text, l.Formula, [.. l.Values], l.Unit))]))]);
}

using Stockseat.Audit.Explaining;
using Stockseat.Audit.Replaying;
using Stockseat.V1;

namespace Stockseat.Cli.Client;

/// <summary>What a replay found, as the service sent it.</summary>
internal static class ReplayReading
{
    public static ReplayResult Of(ReplayResponse r) => new(
        r.First, r.Last, r.Answers, r.Refusals, r.Others, r.Same, r.Within, r.Given,
        [
            .. r.Differences.Select(
                d => new Audit.Replaying.ReplayDifference(
                    d.Serial, d.Kind, d.Text, [.. d.Fields.Select(f => new Audit.Replaying.FieldDifference(f.Path, f.Recorded, f.Recomputed))])),
        ],
        r.MoreDifferences, r.Unreadable.Length == 0 ? null : r.Unreadable);

    public static Working Working(long serial, ReplayResponse r) => new(
        serial,
        [
            .. r.Working.Select(
                s => new Audit.Explaining.WorkingSection(
                    s.Title, [.. s.Lines.Select(l => new Audit.Explaining.WorkingLine(l.Symbol, l.Text, l.Formula, [.. l.Values], l.Unit))])),
        ]);
}

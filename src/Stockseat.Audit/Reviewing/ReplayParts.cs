using Stockseat.Audit.Replaying;

namespace Stockseat.Audit.Reviewing;

/// <summary>Replays of several runs of entries as one.</summary>
internal static class ReplayParts
{
    /// <summary>Their sum.</summary>
    public static ReplayResult Together(IReadOnlyList<ReplayResult> parts)
    {
        var differences = parts.SelectMany(p => p.Differences).ToList();
        var ran = parts.Where(p => p.First > 0).ToList();
        return new(
            ran.Select(p => p.First).DefaultIfEmpty().Min(), ran.Select(p => p.Last).DefaultIfEmpty().Max(),
            parts.Sum(p => p.Answers), parts.Sum(p => p.Refusals), parts.Sum(p => p.Others), parts.Sum(p => p.Same), parts.Sum(p => p.Within), parts.Sum(p => p.Given),
            [.. differences.Take(LedgerReplay.MostDifferences)],
            parts.Sum(p => p.MoreDifferences) + Math.Max(0, differences.Count - LedgerReplay.MostDifferences),
            parts.Select(p => p.Unreadable).FirstOrDefault(u => u is not null));
    }
}

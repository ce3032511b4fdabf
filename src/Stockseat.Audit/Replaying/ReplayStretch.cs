namespace Stockseat.Audit.Replaying;

/// <summary>Serials of one ledger that are replayed in one go.</summary>
/// <param name="Ledger">The ledger.</param>
/// <param name="From">The first serial.</param>
/// <param name="To">The last one.</param>
internal sealed record ReplayStretch(ReplayedLedger Ledger, long From, long To)
{
    /// <summary>How many stretches there are for each range: they take differently long.</summary>
    private const int ForEachRange = 8;

    /// <summary>A stretch begins with reading what holds there, which costs as much as some hundred entries.</summary>
    private const int Shortest = 2000;

    /// <summary>Cuts what is asked for into stretches, in order.</summary>
    public static IReadOnlyList<ReplayStretch> Cut(IReadOnlyList<ReplayedLedger> ledgers, ReplayOptions options)
    {
        var wanted = ledgers.Select(l => new ReplayStretch(l, Math.Max(l.First, options.From), Math.Min(l.Last, options.Until ?? long.MaxValue)))
            .Where(s => s.From <= s.To).ToList();
        var length = Math.Max(Shortest, wanted.Where(s => s.Ledger.Fault is null).Sum(s => s.To - s.From + 1) / (ForEachRange * (long)options.Ranges));
        var all = new List<ReplayStretch>();
        foreach (var ledger in wanted)
        {
            var from = ledger.From;
            for (; ledger.Ledger.Fault is null && from <= ledger.To - length; from += length)
            {
                all.Add(new(ledger.Ledger, from, from + length - 1));
            }

            all.Add(new(ledger.Ledger, from, ledger.To));
        }

        return all;
    }
}

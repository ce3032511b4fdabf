namespace Stockseat.Audit.Replaying;

/// <summary>A range of serials of one ledger that is replayed in one go.</summary>
/// <param name="Ledger">The ledger.</param>
/// <param name="From">The first serial.</param>
/// <param name="To">The last one.</param>
internal sealed record ReplayStretch(ReplayedLedger Ledger, long From, long To)
{
    /// <summary>How many stretches each parallel range gets, since stretches take different times.</summary>
    private const int ForEachRange = 8;

    /// <summary>The shortest stretch: its beginning, which reads what is in force there, costs as much as some hundred entries.</summary>
    private const int Shortest = 2000;

    /// <summary>Divides the wanted range into stretches, in order.</summary>
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

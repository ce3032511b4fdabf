using Stockseat.Audit.Replaying;
using TestLedger = Stockseat.Ledger.Tests.Support.Ledger;

namespace Stockseat.Ledger.Tests.Support;

/// <summary>Replays in one range, two and seven: the result must be the same.</summary>
internal static class Replays
{
    public static ReplayResult Of(string folder, ReplayOptions? options = null)
    {
        options ??= new();
        var one = LedgerReplay.Run(folder, options with { Ranges = 1 }, CancellationToken.None);
        foreach (var ranges in new[] { 2, 7 })
        {
            var many = LedgerReplay.Run(folder, options with { Ranges = ranges, Piece = 3 }, CancellationToken.None);
            Assert.Equal(Text(one), Text(many));
        }

        return one;
    }

    public static ReplayResult Replay(this TestLedger ledger) => Of(ledger.Folder);

    private static string Text(ReplayResult r) => string.Join('\n',
    [
        $"{r.First} {r.Last} {r.Answers} {r.Refusals} {r.Others} {r.Same} {r.Within} {r.Given} {r.MoreDifferences} {r.Unreadable}",
        .. r.Differences.Select(d => $"{d.Serial} {d.Kind} {d.Text} {string.Join(", ", d.Fields)}"),
    ]);
}

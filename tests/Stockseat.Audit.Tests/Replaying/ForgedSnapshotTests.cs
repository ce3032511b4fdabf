using System.Text.Json.Nodes;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Hold;
using Stockseat.Answers.Locate;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Tests.Support;
using TestLedger = Stockseat.Ledger.Tests.Support.Ledger;

namespace Stockseat.Audit.Tests.Replaying;

/// <summary>A replay makes snapshots again, just as it decides answers again.</summary>
public sealed class ForgedSnapshotTests
{
    [Fact]
    public async Task A_snapshot_with_other_values_is_reported_as_different_with_its_place()
    {
        using var copy = new LedgerCopy(await Make());
        var snapshot = Rows(copy).Single(r => r.Kind == Kinds.Snapshot);
        var json = JsonNode.Parse(snapshot.Body)!;
        json["carried"]!.AsArray().RemoveAt(1);
        copy.Rewrite(snapshot.Serial, json.ToJsonString());

        var found = Replays.Of(copy.Folder);

        Assert.Equal(1, found.ExitCode);
        Assert.Equal((snapshot.Serial, Kinds.Snapshot), (found.Differences[0].Serial, found.Differences[0].Kind));
        Assert.Contains("it leaves out entry 3", found.Differences[0].Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_untouched_snapshot_comes_out_the_same()
    {
        using var copy = new LedgerCopy(await Make());

        var found = Replays.Of(copy.Folder);

        Assert.Equal((0, found.Answers + found.Refusals + found.Others), (found.ExitCode, found.Same));
    }

    private static async Task<byte[]> Make()
    {
        using var ledger = await new TestLedger(new SteppedTime()) { SnapshotEvery = 1000 }.Begin();
        await ledger.Do(TestLedger.Measured(0.09));
        await TestLedger.Soon(ledger.Writer.Snapshot());
        await ledger.Do<AnswerBody>(TestLedger.Locate(null));
        await ledger.Do(new HoldAsk(new("bench", "demo", null), "bed") { By = "a", Why = "w" });
        await ledger.Close();
        return System.IO.File.ReadAllBytes(ledger.File);
    }

    private static List<EntryRow> Rows(LedgerCopy copy)
    {
        using var connection = LedgerFile.OpenReader(copy.Folder);
        return LedgerQueries.After(connection, 0, int.MaxValue);
    }
}

using System.Text.Json.Nodes;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Hold;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Snapshots;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Tests.Support;
using TestLedger = Stockseat.Ledger.Tests.Support.Ledger;

namespace Stockseat.Ledger.Tests.Snapshots;

/// <summary>A snapshot is evidence, not an authority: a forged one is found, with its place, even if every hash is right.</summary>
public sealed class SnapshotFaultTests
{
    [Fact]
    public async Task Untouched_snapshots_are_all_right()
    {
        using var copy = new LedgerCopy(await Make());

        Assert.Empty(copy.Verify().Faults);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    public async Task An_entry_that_a_snapshot_leaves_out_is_named(int which)
    {
        using var copy = new LedgerCopy(await Make());
        var (serial, body) = Snapshots(copy)[which];
        var json = JsonNode.Parse(body)!;
        var left = json["carried"]!.AsArray()[^1]!["serial"]!.GetValue<long>();
        json["carried"]!.AsArray().RemoveAt(json["carried"]!.AsArray().Count - 1);
        copy.Rewrite(serial, json.ToJsonString());

        var fault = copy.Verify().Faults[0];

        Assert.Equal((serial, "snapshot"), (fault.Serial, fault.Kind));
        Assert.Contains($"it leaves out entry {left}", fault.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_entry_that_a_snapshot_carries_although_it_no_longer_counts_is_named()
    {
        using var copy = new LedgerCopy(await Make());
        var (serial, body) = Snapshots(copy)[^1];
        var json = JsonNode.Parse(body)!;
        json["carried"]!.AsArray().Insert(0, JsonNode.Parse(Row(copy, 3)));
        copy.Rewrite(serial, json.ToJsonString());

        var fault = Assert.Single(copy.Verify().Faults);

        Assert.Equal((serial, "snapshot"), (fault.Serial, fault.Kind));
        Assert.Contains("it carries entry 3, which no longer counts", fault.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("\"diameter\":0.093", "\"diameter\":0.0930", "changed bytes of entry")]
    [InlineData("\"diameter\":0.093", "\"diameter\":0.095", "changed bytes of entry")]
    [InlineData("{\"v\":2,", "{ \"v\":2,", "written differently")]
    public async Task An_entry_that_a_snapshot_carries_with_other_bytes_is_named(string was, string now, string said)
    {
        using var copy = new LedgerCopy(await Make());
        var (serial, body) = Snapshots(copy)[^1];
        var at = body.IndexOf(was, StringComparison.Ordinal);
        copy.Rewrite(serial, body[..at] + now + body[(at + was.Length)..]);

        var fault = Assert.Single(copy.Verify().Faults);

        Assert.Equal((serial, "snapshot"), (fault.Serial, fault.Kind));
        Assert.Contains(said, fault.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_faulty_entry_explains_the_snapshot_after_it()
    {
        using var copy = new LedgerCopy(await Make());
        var measured = LastMeasured(copy);
        copy.Sql($"UPDATE entry SET body = replace(body, '\"diameter\":0.093', '\"diameter\":0.094') WHERE serial = {measured}");

        var fault = Assert.Single(copy.Verify().Faults);

        Assert.Equal((measured, "edited"), (fault.Serial, fault.Kind));
    }

    [Fact]
    public async Task A_changed_entry_with_all_later_hashes_recomputed_is_found_by_the_snapshot_alone()
    {
        using var copy = new LedgerCopy(await Make());
        var measured = LastMeasured(copy);
        copy.Rewrite(measured, Row(copy, measured).Replace("0.093", "0.094", StringComparison.Ordinal));

        Assert.Equal((Snapshots(copy)[^1].Serial, "snapshot"), (Assert.Single(copy.Verify().Faults).Serial, copy.Verify().Faults[0].Kind));
    }

    [Fact]
    public async Task An_unreadable_snapshot_is_a_fault_and_later_ones_are_checked_from_the_one_before()
    {
        using var copy = new LedgerCopy(await Make());
        var (serial, body) = Snapshots(copy)[1];
        copy.Rewrite(serial, body.Replace("\"carried\":[", "\"carried\":[5,", StringComparison.Ordinal));

        Assert.Equal([(serial, "snapshot")], copy.Verify().Faults.Select(f => (f.Serial, f.Kind)));
    }

    /// <summary>A ledger with three snapshots.</summary>
    internal static async Task<byte[]> Make()
    {
        using var ledger = await new TestLedger(new SteppedTime()) { SnapshotEvery = 1000 }.Begin();
        var who = new Caller("bench", "demo", null);
        await ledger.Do(TestLedger.Measured(0.09));
        await Snapshot(ledger);
        var answer = await ledger.Do<AnswerBody>(TestLedger.Locate(null));
        await ledger.Do(TestLedger.Confirm(answer.Serial));
        await ledger.Do(new HoldAsk(who, "bed") { By = "a", Why = "w" });
        await Snapshot(ledger);
        await ledger.Do(new ReleaseAsk(who, "bed") { By = "a", Why = "w", Of = "a" });
        await ledger.Do(TestLedger.Measured(0.093));
        await ledger.End();
        return File.ReadAllBytes(ledger.File);
    }

    private static async Task Snapshot(TestLedger ledger) => Assert.IsType<SnapshotBody>((await TestLedger.Soon(ledger.Writer.Snapshot())).Entry);

    private static List<(long Serial, string Body)> Snapshots(LedgerCopy copy)
    {
        using var connection = LedgerFile.OpenReader(copy.Folder);
        return [.. LedgerQueries.After(connection, 0, int.MaxValue).Where(r => r.Kind == Kinds.Snapshot).Select(r => (r.Serial, r.Body))];
    }

    private static long LastMeasured(LedgerCopy copy)
    {
        using var connection = LedgerFile.OpenReader(copy.Folder);
        return LedgerQueries.After(connection, 0, int.MaxValue).Last(r => r.Kind == Kinds.Measurement).Serial;
    }

    private static string Row(LedgerCopy copy, long serial)
    {
        using var connection = LedgerFile.OpenReader(copy.Folder);
        return LedgerQueries.Find(connection, serial)!.Body;
    }
}

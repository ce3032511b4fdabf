using Stockseat.Answers.Adopt;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Confirm;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Hold;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Recheck;
using Stockseat.Answers.Roll;
using Stockseat.Answers.State;
using Stockseat.Ledger.Reading;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Tests.Support;
using Stockseat.Ledger.Writing;
using Stockseat.Tests.Support.Clocks;

namespace Stockseat.Ledger.Tests.Rolling;

public sealed class RollTests
{
    [Fact]
    public async Task Serials_continue_and_both_ledgers_name_each_other()
    {
        using var ledger = await new Support.Ledger().Begin();
        await ledger.Do(Support.Ledger.Locate());
        var end = await ledger.Roll();
        var after = await ledger.Do<AnswerBody>(Support.Ledger.Locate());

        Assert.Equal((4, 6), (end.Serial, after.Serial));
        var first = Assert.IsType<RolledOverBody>(ledger.Rows()[0].ReadBody());
        Assert.Equal((5, "ledger-2", "ledger-1", 4), (first.Serial, first.Ledger, first.Follows!.Ledger, first.Follows.Last));
        Assert.Equal(["1-ledger-1.db"], ClosedLedgers.Of(ledger.Folder).Select(f => Path.GetFileName(f.Path)));
        Assert.Equal("ledger-2", ledger.Verify().Ledger);
        await ledger.Again();
        await ledger.Roll("ledger-3");
        await ledger.End();
        ledger.IsWhole(closed: 2);
    }

    [Fact]
    public async Task The_new_ledger_alone_gives_the_whole_situation()
    {
        var time = new SteppedTime();
        using var ledger = await Rolled.Full(time);
        var before = ledger.Writer.Situation.Text();
        await ledger.Roll();
        Assert.Equal(before, ledger.Writer.Situation.Text());
        await ledger.Roll("ledger-3");
        await ledger.Kill();
        Directory.Delete(Path.Combine(ledger.Folder, ClosedLedgers.Folder), recursive: true);
        await ledger.Begin();

        Assert.Equal(before, ledger.Writer.Situation.Text());
        // Also that the nests were emptied: readings from before that are not used after it.
        Assert.Equal(14, Assert.IsType<RolledOverBody>(ledger.Rows()[0].ReadBody()).Carried!.Count);
        Assert.Equal("fixture-held", (await ledger.Do<RefusalBody>(Support.Ledger.Locate())).Reason);
        await ledger.Do<ReleasedBody>(new ReleaseAsk(new(null, null, null), "bed") { By = "oil", Why = "done", Of = "oil" });
        var answer = await ledger.Do<AnswerBody>(Support.Ledger.Locate(null));
        Assert.Equal((0.09, 2, false), (answer.Diameter, answer.Revision, answer.First));
        await ledger.Again();
        Assert.Empty(ledger.Writer.Situation.Find("bed")!.Holds);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task A_recheck_that_missed_after_a_roll_counts_when_its_revision_is_adopted_again(bool rollAgain)
    {
        using var ledger = new Support.Ledger { Fixture = new("bed", [Support.Ledger.Revision(1, """, "limits": { "recheck": "0.5 mm" }""")], []) };
        await ledger.Begin();
        await ledger.Roll();
        var who = new Caller("bench", "demo", null);
        var missed = await ledger.Do<RecheckBody>(new RecheckAsk(who, "bed") { By = "setter", MasterMetres = 0.08, FoundMetres = new(0, 0.002, 0) });
        await ledger.Do<RevisionAdoptedBody>(new AdoptAsk(who, "bed", 1) { By = "setter", Why = "again", Folder = ledger.Fixture });
        Assert.Equal(missed.Serial, ledger.Writer.Situation.Find("bed")!.Missed?.Serial);
        var before = ledger.Writer.Situation.Text();

        await (rollAgain ? ledger.Roll("ledger-3") : ledger.Again());

        Assert.Equal(before, ledger.Writer.Situation.Text());
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task A_measurement_that_was_voided_stays_void(bool emptied)
    {
        using var ledger = await new Support.Ledger().Begin();
        await ledger.Do(Support.Ledger.Measured(0.09));
        var voids = await ledger.Do(emptied ? new EmptiedAsk(new(null, null, null), "bed")
            : Support.Ledger.Measured(0.09, gauge: "none") with { Terms = null });
        await ledger.Roll();
        await ledger.Roll("ledger-3");

        var refusal = await ledger.Do<RefusalBody>(Support.Ledger.Locate(null));
        Assert.Equal("measurement-missing", refusal.Reason);
        Assert.Contains($"(entry {voids.Serial}", refusal.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_answer_from_before_the_roll_can_be_confirmed_while_its_ledger_is_there()
    {
        using var ledger = await new Support.Ledger().Begin();
        var answer = await ledger.Do<AnswerBody>(Support.Ledger.Locate());
        await ledger.Roll();

        Assert.Equal(answer.Serial, (await ledger.Do<ConfirmationBody>(Support.Ledger.Confirm(answer.Serial))).Confirms);
        Assert.Equal("readback-differs", (await ledger.Do<RefusalBody>(Support.Ledger.Confirm(answer.Serial, by: "1"))).Reason);

        Directory.Delete(Path.Combine(ledger.Folder, ClosedLedgers.Folder), recursive: true);
        var refusal = await ledger.Do<RefusalBody>(Support.Ledger.Confirm(answer.Serial));
        Assert.Equal("serial-unknown", refusal.Reason);
        Assert.Contains("it is in an older ledger, which is closed, and this ledger begins with entry 5", refusal.Text, StringComparison.Ordinal);
        Assert.Contains("not an answer of this ledger", (await ledger.Do<RefusalBody>(Support.Ledger.Confirm(900))).Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task A_request_id_from_before_the_roll_still_gets_its_first_outcome(bool opened)
    {
        using var ledger = await new Support.Ledger().Begin();
        var answer = await ledger.Do<AnswerBody>(Support.Ledger.Locate(request: "a"));
        var end = await ledger.Do<RolledOverBody>(Rolled.Ask("r"));
        if (opened)
        {
            await ledger.Again();
        }

        Assert.Equal(answer.Serial, (await ledger.Do<AnswerBody>(Support.Ledger.Locate(request: "a"))).Serial);
        Assert.Contains("belongs to another request",
            (await ledger.Do<RefusalBody>(Support.Ledger.Measured(0.09, "a") with { Caller = new("bench", null, null, null, "a") })).Text,
            StringComparison.Ordinal);
        Assert.Equal(end.Serial, (await ledger.Do<RolledOverBody>(Rolled.Ask("r", "another"))).Serial);
        Assert.Equal("ledger-2", ledger.Verify().Ledger);
        Directory.Delete(Path.Combine(ledger.Folder, ClosedLedgers.Folder), recursive: true);
        Assert.NotEqual(answer.Serial, (await ledger.Do<AnswerBody>(Support.Ledger.Locate(request: "a"))).Serial); // its ledger is gone, so the id is unknown
    }

    [Fact]
    public async Task An_entry_carried_with_a_request_id_does_not_affect_other_asks()
    {
        using var ledger = await new Support.Ledger().Begin();
        var measured = await ledger.Do<MeasurementBody>(Support.Ledger.Measured(0.09, "m"));
        await ledger.Roll();

        await ledger.Do<AnswerBody>(Support.Ledger.Locate(request: "a"));
        Assert.Equal(measured.Serial, (await ledger.Do<MeasurementBody>(Support.Ledger.Measured(0.09, "m"))).Serial);
        await ledger.Again();
        await ledger.Do<AnswerBody>(Support.Ledger.Locate(request: "b"));
    }

    [Fact]
    public async Task A_client_without_permission_is_refused_and_nothing_rolls()
    {
        using var ledger = await new Support.Ledger().Begin();

        await ledger.Do<RefusalBody>(Rolled.Ask() with { Denied = new(Answers.Reasons.Reason.NotPermitted, "no") });

        Assert.Equal(3, (await ledger.Do<RefusalBody>(Rolled.Ask() with { Denied = new(Answers.Reasons.Reason.NotPermitted, "no") })).Serial - 1);
        Assert.Empty(ClosedLedgers.Of(ledger.Folder));
    }

    [Fact]
    public async Task A_closed_ledger_of_the_same_name_is_not_overwritten_and_does_not_delay_the_roll()
    {
        using var ledger = await new Support.Ledger().Begin();
        var folder = Directory.CreateDirectory(Path.Combine(ledger.Folder, ClosedLedgers.Folder)).FullName;
        await File.WriteAllTextAsync(Path.Combine(folder, "1-ledger-1.db"), "kept", TestContext.Current.CancellationToken);
        await ledger.Roll();

        await ledger.Do<AnswerBody>(Support.Ledger.Locate());
        Assert.Equal(["1-ledger-1.2.db", "1-ledger-1.db"], Directory.GetFiles(folder).Select(Path.GetFileName).Order(StringComparer.Ordinal));
        Assert.Equal("kept", await File.ReadAllTextAsync(Path.Combine(folder, "1-ledger-1.db"), TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task A_ledger_that_reaches_its_size_rolls_over_by_itself_under_load()
    {
        using var ledger = new Support.Ledger { RollAt = 1_000_000 };
        await ledger.Begin();
        var outcomes = new List<Task<Stockseat.Ledger.Writing.AppendOutcome>>();
        for (var i = 0; i < 15; i++)
        {
            outcomes.AddRange(Enumerable.Range(0, 1000).Select(_ => ledger.Writer.Append(Support.Ledger.Locate())));
            await Support.Ledger.Soon(Task.WhenAll(outcomes));
        }

        Assert.All(outcomes, o => Assert.IsType<AnswerBody>(o.Result.Entry));
        await ledger.End();
        var closed = ClosedLedgers.Of(ledger.Folder).Count;
        Assert.InRange(closed, 2, 14);
        ledger.IsWhole(closed);
    }

    [Fact]
    public async Task Reading_finds_entries_of_all_ledgers_and_a_reader_that_was_open_delays_nothing()
    {
        var time = new SteppedTime();
        using var ledger = await new Support.Ledger(time).Begin();
        using var open = LedgerReader.Open(ledger.Folder);
        for (var i = 2; i <= 4; i++)
        {
            await ledger.Do(Support.Ledger.Locate(lot: $"L{i}"));
            time.Advance(TimeSpan.FromHours(1));
            await ledger.Roll($"ledger-{i}");
        }

        using var reader = LedgerReader.Open(ledger.Folder);
        Assert.Equal((1, 2), (open.First, open.Find(2)!.Serial));
        Assert.Equal((11, 11), (reader.First, reader.Last));
        Assert.Equal([3, 4, 5, 6, 7, 8, 9, 10, 11], reader.Piece(2, 11, 100, null).Rows.Select(r => r.Serial));
        Assert.Equal([6], reader.Piece(0, 11, 100, new() { Lot = "L3" }).Rows.Select(r => r.Serial));
        Assert.Equal([4, 5, 6], reader.Piece(0, 11, 100, new() { From = Support.Ledger.Start.AddHours(1),
            To = Support.Ledger.Start.AddHours(2) }).Rows.Select(r => r.Serial));
        Assert.Equal([8, 9, 10, 11], reader.Newest(4).Select(r => r.Serial));
        Assert.All(Enumerable.Range(1, 11), i => Assert.Equal(i, reader.Find(i)!.Serial));
        Assert.Null(reader.Find(12));

        File.Delete(ClosedLedgers.Of(ledger.Folder)[1].Path);
        using var without = LedgerReader.Open(ledger.Folder);
        Assert.Equal([1, 2, 3, 4, 8, 9, 10, 11], without.Piece(0, 11, 100, null).Rows.Select(r => r.Serial));
        Assert.Null(without.Find(6));
    }
}

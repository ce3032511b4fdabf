using Microsoft.Data.Sqlite;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Roll;
using Stockseat.Ledger.Rolling;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Tests.Support;
using Stockseat.Ledger.Verifying;
using Stockseat.Ledger.Writing;
using Stockseat.Tests.Support.Clocks;

namespace Stockseat.Ledger.Tests.Rolling;

/// <summary>Other programs that read and keep their snapshot for as long as they like: before a roll, during it, and after it.</summary>
public sealed class HeldRollTests
{
    private static readonly TimeSpan RetryAfter = TimeSpan.FromSeconds(5);

    public static TheoryData<string> Steps => ["end", "make", "move", "remove", "replace", "finish"];

    public static TheoryData<string> StepsBegun => ["make", "move", "remove", "replace", "finish"];

    [Fact]
    public async Task A_reader_from_before_delays_a_roll_and_asks_are_still_answered()
    {
        using var ledger = await new Support.Ledger(new SteppedTime()).Begin();
        var told = new List<string>();
        ledger.Writer.RollPutOff += told.Add;
        await ledger.Do(Support.Ledger.Locate());
        using (var reader = Read(ledger))
        {
            await ledger.Do(Support.Ledger.Locate());
            for (var i = 0; i < 3; i++)
            {
                var refusal = (await Support.Ledger.Soon(ledger.Writer.Append(Rolled.Ask()))).Refusal!;
                Assert.Equal(Reason.LedgerUnavailable, refusal.Reason);
                Assert.Contains("can't roll over now, and is continued: ", refusal.Text, StringComparison.Ordinal);
                Assert.Contains("reading ledger.db since before its newest entries", refusal.Text, StringComparison.Ordinal);
                await ledger.Do<AnswerBody>(Support.Ledger.Locate());
            }

            Assert.Single(told); // the line in the log, once
            Assert.Equal("3", Support.Ledger.Scalar(reader, "SELECT count(*) FROM entry"));
        }

        await ledger.Roll();
        Assert.True(ledger.Writer.Writable);
        await ledger.Do<AnswerBody>(Support.Ledger.Locate());
        await ledger.End();
        ledger.IsWhole(closed: 1);
    }

    [Fact]
    public async Task A_reader_that_has_read_everything_does_not_delay_a_roll()
    {
        using var ledger = await new Support.Ledger(new SteppedTime()).Begin();
        await ledger.Do(Support.Ledger.Locate());
        using (var idle = Read(ledger))
        {
            Support.Ledger.Sql(idle, "COMMIT");
            using var reader = Read(ledger);

            // The reader began at the newest entry. The entry that ends the ledger comes after it.
            await ledger.Roll();
            await ledger.Do<AnswerBody>(Support.Ledger.Locate());
            Assert.Equal("3", Support.Ledger.Scalar(reader, "SELECT count(*) FROM entry"));
            Assert.Equal("4", Support.Ledger.Scalar(idle, "SELECT count(*) FROM entry"));
        }

        await Finishes(ledger);
        await ledger.End();
        ledger.IsWhole(closed: 1);
    }

    [Theory]
    [MemberData(nameof(Steps))]
    public async Task A_reader_that_begins_during_a_roll_delays_nothing(string step)
    {
        using var ledger = await Rolled.Full(new SteppedTime());
        var before = ledger.Writer.Situation.Text();
        SqliteConnection? reader = null;
        using (On(ledger, step, () => reader ??= step is "end" or "make" or "move" ? Read(ledger) : null))
        {
            var end = await ledger.Roll();
            Assert.Equal((before, true), (ledger.Writer.Situation.Text(), ledger.Writer.Writable));
            await ledger.Do<RefusalBody>(Support.Ledger.Locate());
            using var all = Stockseat.Ledger.Reading.LedgerReader.Open(ledger.Folder);
            Assert.Equal(Enumerable.Range(1, (int)end.Serial + 2), all.Piece(0, all.Last, int.MaxValue, null).Rows.Select(r => (int)r.Serial));
            Assert.Empty(LedgerLinks.Check(ledger.Folder, away => Assert.Fail(away)));
            Assert.Equal(step == "end", ClosedLedgers.Of(ledger.Folder).Any(f => f.Path.EndsWith(".held", StringComparison.Ordinal)));
            if (reader is not null)
            {
                Assert.Equal($"{end.Serial - (step == "end" ? 1 : 0)}", Support.Ledger.Scalar(reader, "SELECT count(*) FROM entry"));
            }

            await ledger.Again(); // also across a start and another roll
            await ledger.Roll("ledger-3");
            reader?.Dispose();
        }

        await Finishes(ledger);
        await ledger.End();
        ledger.IsWhole(closed: 2);
    }

    [Theory]
    [MemberData(nameof(StepsBegun))]
    public async Task After_a_crash_at_any_step_with_a_reader_the_next_start_continues(string step)
    {
        using var ledger = await Rolled.Full(new SteppedTime());
        var before = ledger.Writer.Situation.Text();
        SqliteConnection? reader = null;
        using (On(ledger, "end", () => reader ??= Read(ledger)))
        using (On(ledger, step, () => throw new InvalidOperationException("crash"), once: true))
        {
            await ledger.Do<RolledOverBody>(Rolled.Ask());
            Assert.IsType<InvalidOperationException>(await Support.Ledger.Soon(ledger.Writer.Ended));
            ledger.Writer.Dispose();
            await ledger.Begin();
        }

        Assert.Equal(before, ledger.Writer.Situation.Text());
        await ledger.Do<RefusalBody>(Support.Ledger.Locate());
        reader!.Dispose();
        await Finishes(ledger);
        await ledger.End();
        ledger.IsWhole(closed: 1);
    }

    [Fact]
    public async Task A_roll_by_size_is_tried_again_every_few_seconds_until_it_succeeds()
    {
        var time = new SteppedTime();
        using var ledger = new Support.Ledger(time) { RollAt = 100_000 };
        await ledger.Begin();
        var (told, looks) = (new List<string>(), 0);
        ledger.Writer.RollPutOff += told.Add;
        using var blocked = new FileStream(Path.Combine(ledger.Folder, "closed"), FileMode.CreateNew); // there is a file where the folder should be
        for (var i = 0; i < 20; i++)
        {
            await Support.Ledger.Soon(Task.WhenAll(Enumerable.Range(0, 500).Select(_ => ledger.Writer.Append(Support.Ledger.Locate()))));
        }

        Assert.Contains("the new ledger could not be written in", Assert.Single(told), StringComparison.Ordinal);
        blocked.Dispose();
        File.Delete(blocked.Name);
        using (On(ledger, "end", () => looks++))
        {
            await ledger.Do<AnswerBody>(Support.Ledger.Locate());
            await Support.Ledger.Soon(ledger.Writer.NextTurn());
            Assert.Equal(0, looks); // not at once
            time.Advance(RetryAfter);
            await ledger.Do<AnswerBody>(Support.Ledger.Locate());
            await Support.Ledger.Soon(ledger.Writer.NextTurn());
            Assert.Equal(1, looks);
        }

        await ledger.End();
        ledger.IsWhole(closed: 1);
    }

    /// <summary>A program that reads and keeps reading, like a database tool that was left open.</summary>
    private static SqliteConnection Read(Support.Ledger ledger)
    {
        var reader = ledger.Other();
        Support.Ledger.Sql(reader, "BEGIN");
        Support.Ledger.Scalar(reader, "SELECT count(*) FROM entry");
        return reader;
    }

    /// <summary>The marks are removed when the readers have ended.</summary>
    private static async Task Finishes(Support.Ledger ledger)
    {
        for (var i = 0; ClosedLedgers.Of(ledger.Folder).Any(f => !f.Path.EndsWith(".db", StringComparison.Ordinal)); i++)
        {
            Assert.True(i < 100, string.Join(' ', Directory.GetFiles(Path.Combine(ledger.Folder, "closed"))));
            ((SteppedTime)ledger.Time).Advance(RetryAfter);
            await Support.Ledger.Soon(ledger.Writer.NextTurn());
            await Support.Ledger.Soon(ledger.Writer.NextTurn());
        }
    }

    private static Undo On(Support.Ledger ledger, string at, Action act, bool once = false)
    {
        var done = 0;
        void Stepped(string data, string step)
        {
            if (data == ledger.Folder && step == at && (!once || Interlocked.Exchange(ref done, 1) == 0))
            {
                act();
            }
        }

        RollSteps.Before += Stepped;
        return new(() => RollSteps.Before -= Stepped);
    }

    private sealed class Undo(Action undo) : IDisposable
    {
        public void Dispose() => undo();
    }
}

using Stockseat.Answers.Locate;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Tests.Rolling;
using Stockseat.Plant.Schema;
using Stockseat.Plant.Tests.Support;
using Local = Stockseat.Ledger.Tests.Support.Ledger;
using Running = Stockseat.Plant.Tests.Support.Forwarding;

namespace Stockseat.Plant.Tests.Forwarding;

/// <summary>The forwarder against a real PostgreSQL.</summary>
public class ForwarderTests(Server server)
{
    private readonly string _id = Guid.NewGuid().ToString();

    [Fact]
    public async Task Every_entry_is_stored_once_and_in_order_as_the_ledger_has_it()
    {
        var database = await server.Prepared();
        using var ledger = await new Local { Id = _id, SnapshotEvery = 100 }.Begin();
        await Ask(ledger, 150);
        await using (var running = new Running(ledger, database.Address()))
        {
            await running.Stores(ledger.Writer.Serial);
            await Ask(ledger, 30);
            await running.Stores(ledger.Writer.Serial);
            Assert.Equal(["reached " + database.Address().Name, "caught up"], running.News);
        }

        await Ask(ledger, 10);
        await using (var again = new Running(ledger, database.Address()))
        {
            await again.Stores(ledger.Writer.Serial);
        }

        var stored = await Running.Stored(database, _id);
        Assert.Equal(Running.Expected(ledger.File), stored);
        Assert.Contains(stored, s => s.Contains(",snapshot,", StringComparison.Ordinal));
        Assert.Equal([$"demo,{ledger.Writer.Serial},False,-"], await database.Sql("SELECT cell, last_serial, closed, differs_from FROM stockseat.cells"));
        Assert.Equal(["190,90000"], await database.Sql("SELECT count(*), max((diameter_metres * 1e6)::integer) FROM stockseat.served WHERE cell = 'demo'"));
    }

    [Fact]
    public async Task Store_that_lost_its_newest_rows_is_filled_again_while_it_runs_and_at_a_start()
    {
        var database = await server.Prepared();
        using var ledger = await new Local { Id = _id }.Begin();
        await Ask(ledger, 50);
        await using (var running = new Running(ledger, database.Address()))
        {
            await running.Stores(ledger.Writer.Serial);
            await database.Sql("DELETE FROM stockseat.entry WHERE serial > 20");
            await Ask(ledger, 5);
            await running.Stores(ledger.Writer.Serial);
            Assert.Equal(Running.Expected(ledger.File), await Running.Stored(database, _id));
        }

        await database.Sql("DELETE FROM stockseat.entry WHERE serial > 7");
        await using (var again = new Running(ledger, database.Address()))
        {
            await again.Stores(ledger.Writer.Serial);
        }

        Assert.Equal(Running.Expected(ledger.File), await Running.Stored(database, _id));
    }

    [Fact]
    public async Task Old_copy_that_was_continued_is_found_and_recorded_and_answers_go_on_and_the_right_ledger_is_sent_on()
    {
        var database = await server.Prepared();
        using var ledger = await new Local { Id = _id }.Begin();
        await Ask(ledger, 20);
        using var old = new Local();
        await ledger.End();
        File.Copy(ledger.File, old.File);
        await ledger.Begin();
        await Ask(ledger, 30);
        await using (var running = new Running(ledger, database.Address()))
        {
            await running.Stores(ledger.Writer.Serial);
        }

        var stored = await Running.Stored(database, _id);
        await old.Begin();
        var fork = old.Writer.Serial; // The start is the first entry that the right ledger has in another form.
        await using (var running = new Running(old, database.Address()))
        {
            await running.Tells("stopped");
            Assert.Contains(running.News, n => n.StartsWith($"stopped ledger {_id} differs from the plant store from entry {fork} on: the store has it with "
                + "another hash, so an old copy was put back and continued", StringComparison.Ordinal));
            await Ask(old, 40); // It answers, beyond what the store has.
            Assert.Equal([$"{fork},True"], await database.Sql("SELECT serial, sent_body LIKE '%service-started%' FROM stockseat.fork"));
            Assert.Single(running.State.Faults);
        }

        Assert.Equal(stored, await Running.Stored(database, _id));
        Assert.Equal([$"{fork}"], await database.Sql("SELECT differs_from FROM stockseat.cells"));
        await Ask(ledger, 3);
        await using (var right = new Running(ledger, database.Address()))
        {
            await right.Stores(ledger.Writer.Serial);
            Assert.Empty(right.State.Faults);
        }
    }

    [Fact]
    public async Task Old_copy_that_was_only_put_back_is_found_too()
    {
        var database = await server.Prepared();
        using var ledger = await new Local { Id = _id }.Begin();
        await Ask(ledger, 20);
        await ledger.Close();
        using var old = new Local();
        File.Copy(ledger.File, old.File);
        await ledger.Begin();
        await using (var running = new Running(ledger, database.Address()))
        {
            await running.Stores(ledger.Writer.Serial);
        }

        var last = ledger.Writer.Serial;
        old.Open();
        await using var back = new Running(old, database.Address());
        await back.Tells("stopped");

        Assert.Contains(back.News, n => n.Contains(
            $"from entry {old.Writer.Serial + 1} on: the store has that entry and this ledger does not", StringComparison.Ordinal));
        Assert.True(old.Writer.Serial < last);
    }

    [Fact]
    public async Task Closed_ledgers_are_sent_too()
    {
        var (database, second) = (await server.Prepared(), Guid.NewGuid().ToString());
        using var ledger = await new Local { Id = _id }.Begin();
        await Ask(ledger, 20);
        await ledger.Roll(second);
        await Ask(ledger, 20);
        await using (var running = new Running(ledger, database.Address()))
        {
            await running.Stores(ledger.Writer.Serial);
            await ledger.Roll(Guid.NewGuid().ToString());
            await Ask(ledger, 5);
            await running.Stores(ledger.Writer.Serial);
        }

        var closed = ClosedLedgers.Of(ledger.Folder);
        Assert.Equal(2, closed.Count);
        Assert.Equal(Running.Expected(closed[0].Path), await Running.Stored(database, _id));
        Assert.Equal(Running.Expected(closed[1].Path), await Running.Stored(database, second));
        Assert.Equal(["2,3"], await database.Sql("SELECT count(*) FILTER (WHERE closed), count(*) FROM stockseat.cells"));
    }

    [Fact]
    public async Task Store_that_is_not_there_is_tried_again_and_no_answer_waits()
    {
        var database = await server.Empty();
        using var ledger = await new Local { Id = _id }.Begin();
        await using var running = new Running(ledger, database.Address());
        await running.Tells("lost the plant store");

        await Ask(ledger, 20);
        Assert.Contains("has tables of version 0; version 2 is needed: run stockseat plant prepare", running.State.Cause, StringComparison.Ordinal);
        Assert.False(running.State.Connected);
        await Preparation.Run(database.Address(), default);

        await running.Stores(ledger.Writer.Serial);
        Assert.Equal(Running.Expected(ledger.File), await Running.Stored(database, _id));
        Assert.Equal(3, running.News.Count); // lost once, reached once, caught up once
    }

    [Theory]
    [InlineData("at = 'noon'", "entry 9 can't be sent: its column at is no instant of an entry")]
    [InlineData("body = CAST(x'ff' AS TEXT)", "entry 9 can't be stored: invalid byte sequence for encoding")]
    [InlineData("tag = 'a' || char(0)", "entry 9 can't be stored: invalid byte sequence for encoding")]
    public async Task Row_that_can_not_go_is_never_skipped_and_those_before_it_go(string change, string fault)
    {
        var database = await server.Prepared();
        using var ledger = await new Local { Id = _id }.Begin();
        await Ask(ledger, 20);
        ledger.Sql($"UPDATE entry SET {change} WHERE serial = 9");
        await using var running = new Running(ledger, database.Address());
        await running.Tells("stopped");

        await Ask(ledger, 5);
        Assert.Contains(running.News, n => n.StartsWith($"stopped {fault}", StringComparison.Ordinal));
        Assert.Equal(["8,8"], await database.Sql("SELECT max(serial), count(*) FROM stockseat.entry"));
        Assert.Null(running.State.Even);
    }

    private static async Task Ask(Local ledger, int count)
    {
        for (var i = 0; i < count; i++)
        {
            await ledger.Do<AnswerBody>(Local.Locate());
        }
    }
}

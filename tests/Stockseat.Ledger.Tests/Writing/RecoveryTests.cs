using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Reasons;

namespace Stockseat.Ledger.Tests.Writing;

public sealed class RecoveryTests
{
    private const string Fail = "CREATE TRIGGER full BEFORE INSERT ON entry BEGIN SELECT RAISE(ABORT, 'no room'); END";

    [Fact]
    public async Task A_failed_write_is_refused_and_the_writer_answers_again_by_itself()
    {
        using var ledger = await new Support.Ledger().Begin();
        var before = await ledger.Do(Support.Ledger.Locate());
        var (lost, back) = Watch(ledger);

        Assert.Equal(Reason.LedgerUnavailable, (await Support.Ledger.Soon(ledger.Writer.Append(_ => throw new IOException("no room")))).Refusal!.Reason);
        Assert.Contains("no room", (await Support.Ledger.Soon(lost.Task))!.Message, StringComparison.Ordinal);
        await Support.Ledger.Soon(back.Task);

        Assert.True(ledger.Writer.Writable);
        Assert.Equal(before.Serial + 1, (await ledger.Do(Support.Ledger.Locate())).Serial);
        Assert.Equal([before.Serial, before.Serial + 1], ledger.Rows().Where(r => r.Kind == Kinds.Answer).Select(r => r.Serial));
        Assert.True(ledger.Verify().Whole);
    }

    [Fact]
    public async Task A_whole_batch_fails_together_and_leaves_nothing()
    {
        using var ledger = await new Support.Ledger().Begin();
        var (_, back) = Watch(ledger);
        // The third entry of the batch fails; the two before it are rolled back.
        var outcome = await Support.Ledger.Soon(ledger.Writer.Append(_ =>
            Enumerable.Range(0, 3).Select(i => i < 2 ? new EmptiedBody { Fixture = "bed" } : throw new IOException("no room"))));

        Assert.Equal((null, Reason.LedgerUnavailable), (outcome.Entry, outcome.Refusal!.Reason));
        await Support.Ledger.Soon(back.Task);
        Assert.Equal(2, ledger.Writer.Serial);
        Assert.Equal(3, (await ledger.Do(Support.Ledger.Locate())).Serial);
        Assert.True(ledger.Verify().Whole);
    }

    [Fact]
    public async Task The_situation_is_the_same_before_and_after_a_failure()
    {
        using var ledger = await new Support.Ledger().Begin();
        await ledger.Do(Support.Ledger.Measured(0.09));
        await ledger.CarryOut(await ledger.Do<AnswerBody>(Support.Ledger.Locate(null, "a")));
        var (_, back) = Watch(ledger);
        ledger.Sql(Fail);
        Assert.Equal(Reason.LedgerUnavailable, await ledger.Refused(Support.Ledger.Locate()));
        ledger.Sql("DROP TRIGGER full");
        await Support.Ledger.Soon(back.Task);

        var answer = await ledger.Do<AnswerBody>(Support.Ledger.Locate(null));

        Assert.Equal((0.09, false), (answer.Diameter, answer.First));
        Assert.Equal(4, (await ledger.Do(Support.Ledger.Locate(null, "a"))).Serial);
    }

    [Fact]
    public async Task While_another_program_has_the_lock_asks_are_refused_and_the_writer_recovers_by_itself()
    {
        using var ledger = await new Support.Ledger().Begin();
        var (lost, _) = Watch(ledger);
        using var other = ledger.Other();
        Support.Ledger.Sql(other, "BEGIN IMMEDIATE");

        Assert.Equal(Reason.LedgerUnavailable, await ledger.Refused(Support.Ledger.Locate()));
        Assert.NotNull(await Support.Ledger.Soon(lost.Task));
        Support.Ledger.Sql(other, "ROLLBACK");
        await Deadline.Until(
            async () => (await ledger.Writer.Append(Support.Ledger.Locate())).Entry is not null, "an answer after its next attempt, which comes by itself");

        Assert.True(ledger.Writer.Writable);
        Assert.Equal(3, ledger.Verify().Entries);
        Assert.True(ledger.Verify().Whole);
    }

    [Fact]
    public async Task An_acknowledged_entry_that_is_gone_ends_the_writer()
    {
        using var ledger = await new Support.Ledger().Begin();
        await ledger.Do(Support.Ledger.Locate());
        ledger.Sql("DELETE FROM entry WHERE serial = 3");

        Assert.Equal(Reason.LedgerUnavailable, await ledger.Refused(Support.Ledger.Locate()));

        Assert.Contains("entry 3 was acknowledged", Assert.IsType<InvalidDataException>(await Support.Ledger.Soon(ledger.Writer.Ended)).Message,
            StringComparison.Ordinal);
        Assert.Equal(Reason.ShuttingDown, await ledger.Refused(Support.Ledger.Locate()));
    }

    private static (TaskCompletionSource<Exception?> Lost, TaskCompletionSource Back) Watch(Support.Ledger ledger)
    {
        var (lost, back) = (new TaskCompletionSource<Exception?>(), new TaskCompletionSource());
        ledger.Writer.WritableChanged += (writable, cause) =>
        {
            if (writable)
            {
                back.TrySetResult();
            }
            else
            {
                lost.TrySetResult(cause);
            }
        };
        return (lost, back);
    }
}

using Stockseat.Answers.Reasons;

namespace Stockseat.Ledger.Tests.Writing;

/// <summary>The proof that the writer's thread turns.</summary>
public sealed class TurnTests
{
    [Fact]
    public async Task A_writer_that_waits_proves_it_and_writes_nothing()
    {
        using var ledger = await new Support.Ledger().Begin();
        var (serial, commit) = (ledger.Writer.Serial, ledger.Writer.NextCommit);

        await Support.Ledger.Soon(ledger.Writer.NextTurn());
        await Support.Ledger.Soon(ledger.Writer.NextTurn());

        Assert.Equal(serial, ledger.Writer.Serial);
        Assert.False(commit.IsCompleted);
        await ledger.End();
    }

    [Fact]
    public async Task A_writer_that_hangs_proves_nothing_until_it_goes_on_though_its_queue_is_full()
    {
        using var ledger = await new Support.Ledger().Begin();
        using var gate = new ManualResetEventSlim();
        var hangs = new TaskCompletionSource();
        var stuck = ledger.Writer.Append(_ =>
        {
            hangs.SetResult();
            gate.Wait(Deadline.Usual);
            return [];
        });
        await Support.Ledger.Soon(hangs.Task);
        while (!ledger.Writer.Append(_ => []).IsCompleted)
        {
        }

        var turn = ledger.Writer.NextTurn();
        Assert.Same(turn, ledger.Writer.NextTurn());
        Assert.False(turn.IsCompleted);
        Assert.Equal(Reason.TooBusy, await ledger.Refused(Support.Ledger.Locate()));
        gate.Set();

        await Support.Ledger.Soon(turn);
        await Support.Ledger.Soon(stuck);
        await Support.Ledger.Soon(ledger.Writer.NextTurn());
    }
}

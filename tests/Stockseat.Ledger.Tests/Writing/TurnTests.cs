using Stockseat.Answers.Reasons;

namespace Stockseat.Ledger.Tests.Writing;

/// <summary>The sign of life from the writer's thread.</summary>
public sealed class TurnTests
{
    [Fact]
    public async Task A_waiting_writer_gives_its_sign_of_life_and_writes_nothing()
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
    public async Task A_hanging_writer_gives_no_sign_of_life_until_it_continues_though_its_queue_is_full()
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

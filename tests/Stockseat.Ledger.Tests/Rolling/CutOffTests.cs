using Stockseat.Answers.Roll;
using Stockseat.Ledger.Rolling;
using Stockseat.Ledger.Tests.Support;
using Stockseat.Tests.Support.Clocks;

namespace Stockseat.Ledger.Tests.Rolling;

/// <summary>A roll that is interrupted at any step: a start, or the service itself, continues from there with one ledger and the same situation.</summary>
public sealed class CutOffTests
{
    public static TheoryData<string> Steps => ["make", "move", "remove", "replace", "finish"];

    [Theory]
    [MemberData(nameof(Steps))]
    public async Task After_a_crash_at_any_step_the_next_start_continues(string step)
    {
        using var ledger = await Rolled.Full(new SteppedTime());
        var before = ledger.Writer.Situation.Text();
        using (Fail(ledger, step, new InvalidOperationException("crash")))
        {
            var end = await ledger.Do<RolledOverBody>(Rolled.Ask());
            Assert.IsType<InvalidOperationException>(await Support.Ledger.Soon(ledger.Writer.Ended));
            ledger.Writer.Dispose();
            await ledger.Begin();

            Assert.Equal(end.Serial + 2, ledger.Writer.Serial);
        }

        Assert.Equal(before, ledger.Writer.Situation.Text());
        await ledger.End();
        ledger.IsWhole(closed: 1);
    }

    [Theory]
    [MemberData(nameof(Steps))]
    public async Task After_a_failure_at_any_step_the_service_continues_by_itself(string step)
    {
        using var ledger = await Rolled.Full(new SteppedTime());
        var before = ledger.Writer.Situation.Text();
        var back = new TaskCompletionSource();
        ledger.Writer.WritableChanged += (writable, _) =>
        {
            if (writable)
            {
                back.SetResult();
            }
        };
        var (real, writer) = (ledger.Time as SteppedTime, ledger.Writer);
        using (Fail(ledger, step, new IOException("full")))
        {
            await ledger.Do<RolledOverBody>(Rolled.Ask());
            await Deadline.Until(
                () => back.Task.IsCompleted,
                "the writer's return",
                async () =>
                {
                    await real!.Pass(TimeSpan.FromSeconds(1));
                    await writer.NextTurn();
                });
        }

        Assert.Equal(before, ledger.Writer.Situation.Text());
        await ledger.End();
        ledger.IsWhole(closed: 1);
    }

    [Fact]
    public async Task An_old_log_in_that_place_is_not_mistaken_for_the_new_ledger_s_log()
    {
        using var ledger = await Rolled.Full(new SteppedTime());
        var log = ledger.File + "-wal";
        var kept = await File.ReadAllBytesAsync(log, TestContext.Current.CancellationToken);
        using (Fail(ledger, "remove", new InvalidOperationException("crash")))
        {
            await ledger.Do<RolledOverBody>(Rolled.Ask());
            await Support.Ledger.Soon(ledger.Writer.Ended);
            ledger.Writer.Dispose();
        }

        Assert.NotEmpty(kept);
        await File.WriteAllBytesAsync(log, kept, TestContext.Current.CancellationToken); // as a crash may leave it

        await ledger.Begin();
        await ledger.End();
        ledger.IsWhole(closed: 1);
    }

    /// <summary>Fails once, before a step of this ledger's roll.</summary>
    private static Undo Fail(Support.Ledger ledger, string at, Exception e)
    {
        var failed = 0;
        void Stepped(string data, string step)
        {
            if (data == ledger.Folder && step == at && Interlocked.Exchange(ref failed, 1) == 0)
            {
                throw e;
            }
        }

        RollSteps.Before += Stepped;
        return new(() =>
        {
            RollSteps.Before -= Stepped;
            Assert.Equal(1, failed);
        });
    }

    private sealed class Undo(Action undo) : IDisposable
    {
        public void Dispose() => undo();
    }
}

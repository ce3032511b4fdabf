using Stockseat.Answers.Entries;
using Stockseat.Answers.Events;
using Stockseat.Answers.Hold;
using Stockseat.Ledger.Tests.Support;

namespace Stockseat.Ledger.Tests.Seals;

/// <summary>A seal that can't be written is a failed write like any other, and does not undo an answer.</summary>
public sealed class FailedSealTests : IDisposable
{
    private const string Fail = "CREATE TRIGGER full BEFORE INSERT ON entry BEGIN SELECT RAISE(ABORT, 'no room'); END";
    private readonly KeyFile _file = new KeyFile().Write();
    private readonly Support.Ledger _ledger = new();

    public void Dispose()
    {
        _ledger.Dispose();
        _file.Dispose();
    }

    [Fact]
    public async Task The_answers_before_a_failed_seal_are_kept_and_the_seal_is_made_again_by_itself()
    {
        _ledger.Seals = new(_file.Load(), 3, TimeSpan.FromDays(1));
        await _ledger.Begin();
        var lost = new TaskCompletionSource<Exception?>(TaskCreationOptions.RunContinuationsAsynchronously); // The writer must not continue on this thread.
        _ledger.Writer.WritableChanged += (writable, cause) => _ = !writable && lost.TrySetResult(cause);
        var failed = 0;
        _ledger.Writer.FixturesChanged += () => _ = Interlocked.Exchange(ref failed, 1) == 0 ? _ledger.Sql(Fail) : 0; // between the batch and its seal

        var held = await _ledger.Do(new HoldAsk(new("bench", null, null), "bed") { By = "setter", Why = "pins" });
        Assert.Contains("trigger full", (await Support.Ledger.Soon(lost.Task))!.Message, StringComparison.Ordinal);
        _ledger.Sql("DROP TRIGGER full");
        await _ledger.Reaches(4);

        Assert.Equal((Kinds.Held, Kinds.Seal), (_ledger.Rows()[(int)held.Serial - 1].Kind, _ledger.Rows()[3].Kind));
        Assert.Equal(4, _ledger.Rows().Count);
        Assert.True(_ledger.Verify().Whole);
    }

    [Fact]
    public async Task A_key_that_does_not_sign_has_the_same_effect()
    {
        var key = _file.Load();
        _ledger.Seals = new(key, 3, TimeSpan.FromDays(1));
        await _ledger.Begin();
        var lost = new TaskCompletionSource<Exception?>(TaskCreationOptions.RunContinuationsAsynchronously); // The writer must not continue on this thread.
        _ledger.Writer.WritableChanged += (writable, cause) => _ = !writable && lost.TrySetResult(cause);
        _ledger.Writer.DecisionFailed += e => lost.TrySetException(e);
        key.Dispose();

        await _ledger.Do(Support.Ledger.Locate());

        Assert.Contains("can't be sealed", (await Support.Ledger.Soon(lost.Task))!.Message, StringComparison.Ordinal);
        Assert.Equal(Kinds.Answer, _ledger.Rows()[^1].Kind);
    }

    [Fact]
    public async Task A_stop_without_its_seal_is_not_a_clean_stop()
    {
        var key = _file.Load();
        _ledger.Seals = new(key, 1000, TimeSpan.FromDays(1));
        await _ledger.Begin();
        Assert.Null((await Support.Ledger.Soon(_ledger.Writer.Append(_ => [new ServiceStoppedBody()]))).Refusal);
        key.Dispose();

        var ended = await Support.Ledger.Soon(_ledger.Writer.Stop());

        Assert.Contains("the ledger's last seal can't be written", ended!.Message, StringComparison.Ordinal);
        Assert.Equal(Kinds.ServiceStopped, _ledger.Rows()[^1].Kind);
        Assert.True(_ledger.Verify().Whole);
    }
}

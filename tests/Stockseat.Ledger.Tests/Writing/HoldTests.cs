using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Hold;
using Stockseat.Answers.Locate;
using Stockseat.Answers.State;

namespace Stockseat.Ledger.Tests.Writing;

public sealed class HoldTests
{
    [Fact]
    public async Task Open_holds_are_found_again_when_the_ledger_is_opened()
    {
        using var ledger = await new Support.Ledger().Begin();
        var first = await ledger.Do<HeldBody>(Hold("setter"));
        await ledger.Do<HeldBody>(Hold("maintenance"));
        await ledger.Do<HeldBody>(Hold("setter", why: "said again"));
        await ledger.Do<ReleasedBody>(Release("maintenance"));
        await ledger.Again();

        var hold = Assert.Single(ledger.Writer.Situation.Find("bed")!.Holds.Values);
        Assert.Equal(("setter", "bed moved", first.Serial), (hold.By, hold.Why, hold.Serial));
        Assert.Equal("fixture-held", (await ledger.Do<RefusalBody>(Support.Ledger.Locate())).Reason);

        Assert.Equal(0, (await ledger.Do<ReleasedBody>(Release("setter"))).Left);
        await ledger.Again();
        await ledger.Do<AnswerBody>(Support.Ledger.Locate());
        Assert.True(ledger.Verify().Whole);
    }

    [Fact]
    public async Task A_retry_of_a_hold_or_a_release_writes_nothing_twice_across_openings()
    {
        using var ledger = await new Support.Ledger().Begin();
        var held = await ledger.Do<HeldBody>(Hold("setter", "a"));
        var refused = await ledger.Do<RefusalBody>(Release("nobody", "b"));
        await ledger.Again();
        var written = ledger.Writer.Serial;
        Assert.Equal(held.Serial, (await ledger.Do<HeldBody>(Hold("setter", "a"))).Serial);
        Assert.Equal(refused.Serial, (await ledger.Do<RefusalBody>(Release("nobody", "b"))).Serial);
        Assert.Equal(written, ledger.Writer.Serial);

        var released = await ledger.Do<ReleasedBody>(Release("setter", "c"));
        await ledger.Again();
        written = ledger.Writer.Serial;
        Assert.Equal((released.Serial, 0), ((await ledger.Do<ReleasedBody>(Release("setter", "c"))).Serial, released.Left));
        Assert.Equal(written, ledger.Writer.Serial);
        // The late retry of the hold does not hold the fixture again, and does not claim to either.
        Assert.Equal(held.Serial, (await ledger.Do<RefusalBody>(Hold("setter", "a"))).RetryOf);
        await ledger.Do<AnswerBody>(Support.Ledger.Locate());
    }

    [Fact]
    public async Task The_id_of_another_hold_or_release_is_refused()
    {
        using var ledger = await new Support.Ledger().Begin();
        await ledger.Do<HeldBody>(Hold("setter", "a"));
        await ledger.Do<HeldBody>(Hold("other"));
        await ledger.Do<RefusalBody>(Release("nobody", "b"));

        Assert.Contains("belongs to another request", (await ledger.Do<RefusalBody>(Hold("setter", "a", "another reason"))).Text, StringComparison.Ordinal);
        Assert.Contains("belongs to another request", (await ledger.Do<RefusalBody>(Release("setter", "a"))).Text, StringComparison.Ordinal);
        Assert.Contains("belongs to another request", (await ledger.Do<RefusalBody>(Release("other", "b"))).Text, StringComparison.Ordinal);
        Assert.Equal(2, ledger.Writer.Situation.Find("bed")!.Holds.Count);
    }

    private static HoldAsk Hold(string by, string? request = null, string why = "bed moved") => new(Caller(request), "bed") { By = by, Why = why };

    private static ReleaseAsk Release(string by, string? request = null) => new(Caller(request), "bed") { By = by, Why = "done", Of = by };

    private static Caller Caller(string? request) => new("bench", null, null, null, request);
}

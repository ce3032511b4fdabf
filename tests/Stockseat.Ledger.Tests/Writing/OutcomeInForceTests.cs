using Stockseat.Answers.Adopt;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Confirm;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Hold;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Lots;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Recheck;
using Stockseat.Answers.Roll;
using Stockseat.Answers.State;
using Stockseat.Fixtures.Revisions;
using Stockseat.Ledger.Tests.Rolling;
using Stockseat.Ledger.Tests.Support;
using Stockseat.Seating.Frames;
using Stockseat.Tests.Support.Clocks;

namespace Stockseat.Ledger.Tests.Writing;

/// <summary>
/// A request id that is used again gets its first outcome only while that outcome still counts, whatever the verb; also in another run and another ledger.
/// </summary>
public sealed class OutcomeInForceTests
{
    private static readonly Caller Who = new("bench", "demo", null);

    private const string Retry = ", which no longer holds: ";

    /// <summary>
    /// What was done with an id, what then makes the outcome void, and what the refusal says.
    /// What would be refused as a new ask too is refused for that reason.
    /// </summary>
    private static readonly Dictionary<string, (Ask First, Ask[] Then, string Text)> Cases = new()
    {
        ["a hold that was released"] = (Hold("a"), [Release("a")], Retry),
        ["a hold that was released and begun again"] = (Hold("a"), [Release("a"), Hold("a", why: "again")], Retry),
        ["a second hold of one name that was released and begun again"] = (Hold("b", why: "said again"), [Release("b"), Hold("b")], Retry),
        ["a release of who holds again"] = (Release("b"), [Hold("b")], Retry),
        ["a release of who held again and was released"] = (Release("b"), [Hold("b"), Release("b")], "is not held"),
        ["an emptied before a measurement"] = (new EmptiedAsk(Who, "bed"), [Push(0.09)], Retry),
        ["a measurement before another"] = (Push(0.09), [Push(0.091)], Retry),
        ["a measurement before an emptied"] = (Push(0.09), [new EmptiedAsk(Who, "bed")], Retry),
        ["a measurement before a refused push"] = (Push(0.09), [Push(5)], Retry),
        ["a confirmation before another"] = (new ConfirmAsk(Who, 3), [new ConfirmAsk(Who, 4)], Retry),
        ["a confirmation before an adoption"] = (new ConfirmAsk(Who, 3), [Adopt(2)], Retry),
        ["an adoption before another"] = (Adopt(1), [Adopt(2)], "revision 1 is below 2"),
        ["an adoption before the same again"] = (Adopt(1), [Adopt(1)], Retry),
        ["a recheck of a revision that was replaced"] = (Recheck(0), [Adopt(2)], Retry),
        ["a recheck before a miss"] = (Recheck(0), [Recheck(0.002)], Retry),
        ["a missed recheck before another miss"] = (Recheck(0.002), [Recheck(0.003)], Retry),
        ["a lot that was described anew"] = (Lot(0.09), [Lot(0.08)], Retry),
        ["a roll before another"] = (Roll("x"), [Roll("y")], Retry),
        ["a refused ask that would be answered"] = (Locate(null), [Push(0.09), Release("b")], Retry),
        ["a refused ask that would be refused for another reason"] = (Locate(null), [Release("b")], "no measurement of bed can be used"),
        ["a refused release of who holds now"] = (Release("a"), [Hold("a")], Retry),
        ["a refused adoption of a file that is there now"] = (Adopt(4, without: true), [], Retry),
        ["a refused push before a measurement"] = (Push(5), [Push(0.09)], "5000.000 mm is too large"),
    };

    public static TheoryData<string, string> Each =>
        [.. Cases.Keys.SelectMany(c => new[] { "at once", "after a restart", "after a roll" }.Select(w => (c, w)))];

    [Theory]
    [MemberData(nameof(Each))]
    public async Task An_outcome_that_no_longer_counts_is_refused(string what, string when)
    {
        using var ledger = await Begin();
        var (ask, then, text) = Cases[what];
        ask = ask with { Caller = Who with { Request = "a" } };
        var first = await ledger.Do(ask);
        Assert.Equal(first.Serial, (await ledger.Do(ask)).Serial);
        await Later(ledger, when);
        Assert.True(ask is RollAsk || (await ledger.Do(ask)).Serial == first.Serial);

        foreach (var change in then)
        {
            await ledger.Do(change);
            await Support.Ledger.Soon(ledger.Writer.NextTurn());
        }

        await Later(ledger, when);
        ask = ask is AdoptAsk { Number: 4 } adopt ? adopt with { Folder = Folder(1, 2, 3, 4) } : ask;
        var before = ledger.Writer.Serial;
        var refusal = await ledger.Do<RefusalBody>(ask);

        Assert.Equal((before + 1, null), (refusal.Serial, refusal.Request));
        Assert.Contains(text, refusal.Text, StringComparison.Ordinal);
        Assert.Equal(text == Retry ? first.Serial : null, refusal.RetryOf);
        if (text == Retry)
        {
            Assert.Equal("value-malformed", refusal.Reason);
            Assert.StartsWith("request id a belongs to ", refusal.Text, StringComparison.Ordinal);
            Assert.Contains($" {first.Serial}", refusal.Text, StringComparison.Ordinal);
            Assert.EndsWith("; use a new id", refusal.Text, StringComparison.Ordinal);
        }

        Assert.True(ask is not MeasureAsk || ledger.Writer.Situation.Find("bed")!.Measurement is null);
        // Only the refused push counts again: there is no valid measurement.
        Assert.Equal(first is RefusalBody { Asked: "measured" }, (await ledger.Do(ask)).Serial == first.Serial);
        var replayed = ledger.Replay();
        Assert.True(replayed.ExitCode == 0, string.Join("; ", replayed.Differences.Select(d => $"{d}: {string.Join(", ", d.Fields)}")));
    }

    [Fact]
    public async Task An_outcome_that_the_configuration_removed_does_not_count_either()
    {
        using var ledger = await Begin();
        var lot = (DescribeLotAsk)Lot(0.09) with { Caller = Who with { Request = "a" } };
        await ledger.Do<LotDescribedBody>(lot);

        var refusal = await ledger.Do<RefusalBody>(lot with { Configured = true });

        Assert.Contains("lot L is described in the configuration", refusal.Text, StringComparison.Ordinal);
        Assert.Equal(0, ledger.Replay().ExitCode);
    }

    [Fact]
    public async Task A_client_that_lost_its_permission_gets_no_first_outcome_and_its_refused_push_voids_nothing()
    {
        using var ledger = await Begin();
        var first = Push(5) with { Caller = Who with { Request = "a" } };
        await ledger.Do<RefusalBody>(first);
        await ledger.Do<MeasurementBody>(Push(0.09));

        var refusal = await ledger.Do<RefusalBody>(first with { Denied = Refusal.Of(Reason.NotPermitted, "no") });

        Assert.Equal("not-permitted", refusal.Reason);
        Assert.NotNull(ledger.Writer.Situation.Find("bed")!.Measurement);
    }

    /// <summary>Two answers, and a hold of b.</summary>
    private static async Task<Support.Ledger> Begin()
    {
        var ledger = new Support.Ledger(new SteppedTime()) { Fixture = Folder(1) };
        await ledger.Begin();
        await ledger.Do<AnswerBody>(Locate(0.09));
        await ledger.Do<AnswerBody>(Locate(0.085));
        await ledger.Do<HeldBody>(Hold("b"));
        ledger.Fixture = Folder(1, 2, 3);
        return ledger;
    }

    private static async Task Later(Support.Ledger ledger, string when)
    {
        if (when == "after a restart")
        {
            await ledger.Again();
        }
        else if (when == "after a roll")
        {
            await ledger.Do<RolledOverBody>(new RollAsk(Who) { By = "setter", Why = "later", Next = $"ledger-{ledger.Writer.Serial}" });
            await Support.Ledger.Soon(ledger.Writer.NextTurn());
        }
    }

    private static FixtureFolder Folder(params int[] numbers) =>
        new("bed", [.. numbers.Select(n => Support.Ledger.Revision(n, """, "limits": { "recheck": "0.5 mm" }"""))], []);

    private static HoldAsk Hold(string by, string why = "pins") => new(Who, "bed") { By = by, Why = why };

    private static ReleaseAsk Release(string of) => new(Who, "bed") { By = "setter", Why = "done", Of = of };

    private static MeasureAsk Push(double diameter) => new(Who, "bed") { ReadingsMetres = [diameter], Terms = new(null, null, TimeSpan.FromHours(8)) };

    private static LocateAsk Locate(double? diameter) => new(Who, "bed") { DiameterMetres = diameter };

    private static AdoptAsk Adopt(int number, bool without = false) =>
        new(Who, "bed", number) { By = "setter", Why = "moved", Folder = without ? Folder(1, 2, 3) : Folder([.. Enumerable.Range(1, Math.Max(3, number))]) };

    private static RecheckAsk Recheck(double off) => new(Who, "bed") { By = "setter", MasterMetres = 0.08, FoundMetres = new Vector3(0, off, 0) };

    private static DescribeLotAsk Lot(double nominal) => new(Who, "L") { Terms = new() { Nominal = nominal, Plus = 0.001, Minus = 0.001 }, Configured = false };

    private static RollAsk Roll(string next) => new(Who) { By = "setter", Why = "spring", Next = next };
}

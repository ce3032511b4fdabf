using Stockseat.Answers.Adopt;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Hold;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;

namespace Stockseat.Ledger.Tests.Writing;

public sealed class RetryTests
{
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task A_retry_returns_the_first_outcome_while_it_counts_and_writes_nothing(bool emptied)
    {
        using var ledger = await new Support.Ledger().Begin();
        Ask[] asks =
        [
            Support.Ledger.Locate(0.09, "a"), Support.Ledger.Locate(0.001, "b"), Support.Ledger.Confirm(3, "d", "0.005"), Support.Ledger.Locate(0.091, "e"),
            emptied ? new EmptiedAsk(new("gauge", null, null, null, "f"), "bed") : Support.Ledger.Measured(0.091, "c", lot: "A1"),
            Support.Ledger.Confirm(3, "g"), Support.Ledger.Locate(null, "h"),
        ];
        var first = new List<EntryBody>();
        foreach (var ask in asks)
        {
            first.Add(await ledger.Do(ask));
        }

        for (var round = 0; round < 2; round++)
        {
            var written = ledger.Writer.Serial;
            foreach (var (ask, entry) in asks.Zip(first))
            {
                var again = await ledger.Do(ask);
                Assert.Equal((entry.Serial, entry.At, entry.Kind), (again.Serial, again.At, again.Kind));
            }

            Assert.Equal(written, ledger.Writer.Serial);
            await ledger.Again(); // and the same after a restart
        }
    }

    [Fact]
    public async Task A_retry_within_one_commit_writes_one_entry()
    {
        using var ledger = await new Support.Ledger().Begin();

        var both = await Support.Ledger.Soon(Task.WhenAll(
            ledger.Writer.Append(Support.Ledger.Locate(0.09, "a")), ledger.Writer.Append(Support.Ledger.Locate(0.09, "a"))));

        Assert.Equal([3, 3], both.Select(o => o.Entry!.Serial));
        Assert.Equal(3, ledger.Writer.Serial);
    }

    [Fact]
    public async Task The_same_id_from_another_client_is_another_request()
    {
        using var ledger = await new Support.Ledger().Begin();
        await ledger.Do(Support.Ledger.Locate(0.09, "a"));

        Assert.Equal(4, (await ledger.Do<AnswerBody>(Support.Ledger.Locate(0.08, "a", client: "other"))).Serial);
    }

    [Fact]
    public async Task Without_an_id_every_ask_is_a_new_one()
    {
        using var ledger = await new Support.Ledger().Begin();

        Assert.NotEqual((await ledger.Do(Support.Ledger.Locate())).Serial, (await ledger.Do(Support.Ledger.Locate())).Serial);
    }

    public static TheoryData<string> Others =>
        ["diameter", "lot", "measured", "nest", "nominal", "purpose", "verb", "readback", "serial", "reading", "gauge", "digest", "refused digest",
        "refused diameter", "refused serial"];

    [Theory]
    [MemberData(nameof(Others))]
    public async Task Another_ask_with_the_same_id_is_refused(string what)
    {
        using var ledger = await new Support.Ledger().Begin();
        await ledger.Do(Support.Ledger.Measured(0.09, lot: "A1"));
        var served = (await ledger.Do(Support.Ledger.Locate())).Serial;
        var bench = Support.Ledger.Locate(0.09, "a");
        (Ask First, Ask Other) pair = what switch
        {
            "diameter" => (bench, bench with { DiameterMetres = 0.091 }),
            "lot" => (bench with { DiameterMetres = null, Lot = "A1" }, bench with { DiameterMetres = null, Lot = "B2" }),
            "measured" => (bench, bench with { DiameterMetres = null }),
            "nest" => (bench, bench with { Column = 1 }),
            "nominal" => (bench with { NominalMetres = 0.09, WithinMetres = 0.001 }, bench with { NominalMetres = 0.09, WithinMetres = 0.002 }),
            "purpose" => (bench, bench with { Purpose = Purpose.Place }),
            "verb" => (bench, new EmptiedAsk(bench.Caller, "bed")),
            "readback" => (Support.Ledger.Confirm(served, "a"), Support.Ledger.Confirm(served, "a", "0.9")),
            "serial" => (Support.Ledger.Confirm(served, "a"), Support.Ledger.Confirm(served + 1, "a")),
            "reading" => (Support.Ledger.Measured(0.09, "a"), Support.Ledger.Measured(0.08, "a")),
            "gauge" => (Support.Ledger.Measured(0.09, "a", "g1"), Support.Ledger.Measured(0.09, "a", "g2")),
            "digest" => (Adopt(1), Adopt(1) with { Digest = new string('a', 12) }),
            "refused digest" => (Adopt(1) with { Digest = new string('a', 12) }, Adopt(1)),
            "refused diameter" => (Support.Ledger.Locate(0.001, "a"), Support.Ledger.Locate(0.09, "a")),
            _ => (Support.Ledger.Confirm(999, "a"), Support.Ledger.Confirm(served, "a")),
        };
        var first = await ledger.Do(pair.First);

        var refusal = await ledger.Do<RefusalBody>(pair.Other);

        Assert.Equal("value-malformed", refusal.Reason);
        Assert.Contains($"request id a belongs to another request (entry {first.Serial})", refusal.Text, StringComparison.Ordinal);
        // A refused push voids the measurement, so the first outcome does not count any more.
        Assert.Equal(pair.First is not MeasureAsk, (await ledger.Do(pair.First)).Serial == first.Serial);
    }

    [Fact]
    public async Task A_retried_adoption_with_the_digest_that_came_into_force_is_the_same()
    {
        using var ledger = await new Support.Ledger().Begin();
        var adopted = await ledger.Do<RevisionAdoptedBody>(Adopt(1));

        Assert.Equal(adopted.Serial, (await ledger.Do(Adopt(1) with { Digest = adopted.Digest![..12] })).Serial);
    }

    private static AdoptAsk Adopt(int number) =>
        new(new("bench", null, null, null, "a"), "bed", number) { By = "setter", Why = "moved", Folder = new("bed", [Support.Ledger.Revision(number)], []) };

    [Theory]
    [InlineData("held", "fixture-held")]
    [InlineData("measured", "value-malformed")]
    [InlineData("emptied", "measurement-missing")]
    [InlineData("denied", "not-permitted")]
    public async Task An_answer_that_would_not_be_given_now_is_not_given_again(string since, string reason)
    {
        using var ledger = await new Support.Ledger().Begin();
        await ledger.Do(Support.Ledger.Measured(0.09));
        var ask = Support.Ledger.Locate(null, "a");
        var first = await ledger.Do<AnswerBody>(ask);
        Assert.Equal(first.Serial, (await ledger.Do(ask)).Serial);

        ask = ask with { Denied = since == "denied" ? Refusal.Of(Reason.NotPermitted, "the role was taken away") : null };
        Ask? change = since switch
        {
            "held" => new HoldAsk(new("setter", null, null), "bed") { By = "setter", Why = "a pin is changed" },
            "measured" => Support.Ledger.Measured(0.0905),
            "emptied" => new EmptiedAsk(new("gauge", null, null), "bed"),
            _ => null,
        };
        if (change is not null)
        {
            await ledger.Do(change);
        }

        var refusal = await ledger.Do<RefusalBody>(ask);
        Assert.Equal((reason, null), (refusal.Reason, refusal.Request));
        Assert.NotEqual(refusal.Serial, (await ledger.Do(ask)).Serial);
    }

    [Fact]
    public async Task A_push_for_an_unknown_fixture_with_a_known_id_does_not_make_it_a_fixture()
    {
        using var ledger = await new Support.Ledger().Begin();
        await ledger.Do<MeasurementBody>(Support.Ledger.Measured(0.09, "a"));

        Assert.Equal(Reason.FixtureUnknown, (await ledger.Do<RefusalBody>(Support.Ledger.Measured(0.09, "a") with { Fixture = "nosuch" })).Refusal.Reason);

        Assert.Null(ledger.Writer.Situation.Find("nosuch"));
        Assert.Equal(Reason.FixtureUnknown, (await ledger.Do<RefusalBody>(Support.Ledger.Measured(0.09, "b") with { Fixture = "nosuch" })).Refusal.Reason);
    }

    [Fact]
    public async Task A_push_without_permission_voids_no_measurement_even_with_a_known_id()
    {
        using var ledger = await new Support.Ledger().Begin();
        await ledger.Do<MeasurementBody>(Support.Ledger.Measured(0.09, "a"));
        var denied = Refusal.Of(Reason.NotPermitted, "measured needs the role measure");

        Assert.Equal(Reason.NotPermitted, (await ledger.Do<RefusalBody>(Support.Ledger.Measured(0.08, "a") with { Denied = denied })).Refusal.Reason);

        await ledger.Do<AnswerBody>(Support.Ledger.Locate(null));
    }
}

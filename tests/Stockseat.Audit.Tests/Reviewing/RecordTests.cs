using Stockseat.Audit.Replaying;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Ledger.Verifying;

namespace Stockseat.Audit.Tests.Reviewing;

/// <summary>ledger-not-whole, does-not-follow, and what is said about how far the record can be trusted.</summary>
public sealed class RecordTests
{
    [Fact]
    public async Task Entries_that_do_not_follow_come_first_and_other_problems_second()
    {
        using var day = await Day.Begin();
        var answer = await day.Locate(82);
        await day.Misread(answer, "by", "0");

        var review = day.Review(with: r => r with { Evidence = r.Evidence with { ChainFault = "entry 3 does not follow from entry 2", Whole = null } });

        Assert.Equal("The hashes of the entries shown do not fit together: entry 3 does not follow from entry 2.", review.One(FindingRule.LedgerNotWhole).What);
        Assert.Equal(
            "The ledger is not intact, so no other finding can be trusted further than its entries (finding 1).", review.Summary[0]);
        Assert.StartsWith(
            "Most likely the controller moved by a number that was not the one it was served; the robot may have been up to 1.309 mm off (finding 2, ",
            review.Summary[1], StringComparison.Ordinal);
        Assert.StartsWith(
            "How far this record can be trusted: the hashes of the entries shown do not fit together, the whole ledger was not verified, and all "
                + "", review.Summary[^1],
            StringComparison.Ordinal);
    }

    [Fact]
    public async Task Faults_of_the_ledger_as_a_whole_are_reported_with_their_first_place()
    {
        using var day = await Day.Begin();
        await day.Use(82);
        LedgerFault[] faults = [new(3, FaultKinds.Edited, "it does not follow from the one before"), new(0, FaultKinds.Index, "an index differs")];

        var review = day.Review(with: r => r with { Evidence = r.Evidence with { Whole = r.Evidence.Whole! with { Faults = faults } } });

        review.One(FindingRule.LedgerNotWhole, 3).Says(
            "Verifying the ledger found 2 faults: entry 3, edited, it does not follow from the one before; and 1 more.");
        Assert.Contains("verifying the whole ledger found 2 faults", review.Summary[^1], StringComparison.Ordinal);
    }

    [Fact]
    public async Task Ledger_that_is_not_what_the_plant_store_has_is_a_finding_and_no_ground_to_trust_it()
    {
        using var day = await Day.Begin();
        await day.Use(82);

        var review = day.Review(with: r => r with { Evidence = r.Evidence with { Plant = "from entry 4 on its cell has other entries" } });

        review.One(FindingRule.LedgerNotWhole).Says("This ledger is not what the plant store has: from entry 4 on its cell has other entries.");
        Assert.EndsWith(" The plant store has something else than this ledger.", review.Summary[^1], StringComparison.Ordinal);
    }

    [Fact]
    public async Task Without_faults_or_differences_there_is_no_such_finding()
    {
        using var day = await Day.Begin();
        await day.Use(82);

        var review = day.Review(
            with: r => r with
            {
                LeftOut = 1, Fixtures = [.. r.Fixtures.Select(f => f with { Unproven = [] })], Evidence = new(
                    null, r.Evidence.Whole! with { Unreadable = "entry 4 is of version 2" },
                    r.Evidence.Replay with { Unreadable = "entry 4 is of version 2", Others = 0 }),
            });

        Assert.Empty(review.Findings);
        Assert.Equal(
            "How far this record can be trusted: the hashes of the entries shown fit together, the whole ledger could not be verified (entry 4 is of version "
                + "2), and "
                + "there was nothing to compute again; some could not be computed again (entry 4 is of version 2). One more entry of these minutes is not "
                + "shown.",
                review.Summary[^1]);
    }

    [Fact]
    public async Task An_entry_that_replays_differently_is_reported_with_its_values_and_many_in_short()
    {
        using var day = await Day.Begin();
        var answer = await day.Use(82);
        ReplayDifference[] one = [new(answer.Serial, "answer", "its shift differs.", [new("shiftBase[1]", "0.001309", "0.001409"), new("from", "", "{}")])];

        var review = day.Review(with: r => With(r, one));
        review.One(FindingRule.DoesNotFollow, answer.Serial).Says(
            "Computed again, answer 3 does not come out the same: its shift differs (shiftBase[1] was recorded as 0.001309 and is now computed as 0.001409; "
                + "from "
                + "was recorded as absent and is now computed as {}).");
        Assert.Contains("one entry did not come out the same when computed again", review.Summary[^1], StringComparison.Ordinal);

        var many = day.Review(with: r => With(r, [.. Enumerable.Range(1, 7).Select(i => new ReplayDifference(i, "answer", "it differs", []))]));
        Assert.Equal(6, many.Findings.Count(f => f.Rule == FindingRule.DoesNotFollow));
        Assert.Contains(many.Findings, f => f.What == "2 more entries did not come out the same when computed again." && f.Serials.SequenceEqual([6, 7]));
    }

    [Theory]
    [InlineData("\"nest\":[0,0]", "\"nest\":[]")]
    [InlineData("\"shiftBase\":[", "\"shiftBase\":[1e300,")]
    [InlineData("\"decimals\":6", "\"decimals\":16")]
    [InlineData("\"decimals\":6", "\"decimals\":6,\"unit\":\"ell\"")]
    [InlineData("\"at\":\"2026", "\"at\":\"year 2026")]
    public async Task A_forged_body_does_not_stop_the_other_rules(string was, string forged)
    {
        using var day = await Day.Begin();
        var answer = await day.Locate(82);
        var refused = await day.Misread(answer, "by", "0.001409");
        var held = await day.Hold("setter");
        var ask = await day.LocateRefused();

        var review = day.Review(with: r => Forged(r, answer.Serial, body => body.Replace(was, forged, StringComparison.Ordinal)));

        Assert.StartsWith($"The body of entry {answer.Serial}, answer, can't be read", review.One(FindingRule.LedgerNotWhole, answer.Serial).What,
            StringComparison.Ordinal);
        Assert.Contains(review.Findings, f => f.Rule == FindingRule.RefusedAndNoAnswer && f.Serials.SequenceEqual([ask.Serial]));
        Assert.Contains(review.Findings, f => f.Rule == FindingRule.ReadBackDiffers && f.Serials.SequenceEqual([answer.Serial, refused.Serial]));
        Assert.True(held.Serial < ask.Serial);
    }

    private static Review Forged(Review review, long serial, Func<string, string> forge)
    {
        var entry = review.Entries.Single(e => e.Serial == serial);
        var body = forge(entry.Row.Body);
        Assert.NotEqual(entry.Row.Body, body);
        var read = ReviewEntry.Of(entry.Row with { Body = body });
        Assert.Null(read.Body);
        return review with
        {
            Entries = [.. review.Entries.Select(e => e.Serial == serial ? read : e)],
            Answers = [.. review.Answers.Where(a => a.Answer.Serial != serial)],
            Fixtures = [.. review.Fixtures.Select(f => f with { LastAnswer = null })],
        };
    }

    private static Review With(Review review, ReplayDifference[] differences) =>
        review with { Evidence = review.Evidence with { Replay = review.Evidence.Replay with { Differences = differences } } };
}

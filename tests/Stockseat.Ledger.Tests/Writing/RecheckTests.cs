using Stockseat.Answers.Adopt;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Recheck;
using Stockseat.Answers.State;
using Stockseat.Fixtures.Revisions;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Tests.Writing;

public sealed class RecheckTests
{
    [Fact]
    public async Task The_miss_that_refuses_asks_is_found_again_at_an_opening_behind_any_number_of_rechecks()
    {
        using var ledger = await new Support.Ledger { Fixture = Bed(1) }.Begin();
        await ledger.Do<RecheckBody>(Recheck(0.002));
        var refusing = await ledger.Do<RecheckBody>(Recheck(0.001, refuse: true));
        await ledger.Do<RecheckBody>(Recheck(0.003, note: "\"passed\":false"));
        await ledger.Do<RecheckBody>(Recheck(0, refuse: true));
        await ledger.Again();

        Assert.Equal(refusing.Serial, ledger.Writer.Situation.Find("bed")!.Missed!.Serial);
        Assert.Equal("recheck-failed", (await ledger.Do<RefusalBody>(Support.Ledger.Locate())).Reason);
        Assert.True(ledger.Verify().Whole);
    }

    [Fact]
    public async Task A_miss_that_only_shows_and_a_text_that_looks_like_one_refuse_nothing_after_an_opening()
    {
        using var ledger = await new Support.Ledger { Fixture = Bed(1) }.Begin();
        var shows = await ledger.Do<RecheckBody>(Recheck(0.002));
        await ledger.Do<RecheckBody>(Recheck(0, note: ",\"passed\":false,\"refuseAfterMiss\":true", refuse: false));
        await ledger.Again();

        Assert.Equal(shows.Serial, ledger.Writer.Situation.Find("bed")!.Missed!.Serial);
        await ledger.Do<AnswerBody>(Support.Ledger.Locate());
    }

    [Fact]
    public async Task The_miss_counts_until_another_revision_is_adopted_across_openings()
    {
        using var ledger = await new Support.Ledger { Fixture = Bed(1, 2) }.Begin();
        await ledger.Do<RecheckBody>(Recheck(0.002, refuse: true));
        await ledger.Do<RevisionAdoptedBody>(Adopt(ledger, 2)); // the first adoption took the highest revision: the same one again
        await ledger.Again();
        Assert.Equal("recheck-failed", (await ledger.Do<RefusalBody>(Support.Ledger.Locate())).Reason);

        ledger.Fixture = Bed(1, 2, 3);
        await ledger.Do<RevisionAdoptedBody>(Adopt(ledger, 3));
        await ledger.Again();
        Assert.Null(ledger.Writer.Situation.Find("bed")!.Missed);
        await ledger.Do<AnswerBody>(Support.Ledger.Locate());
    }

    [Fact]
    public async Task A_retry_gets_the_first_outcome_and_the_id_of_another_recheck_is_refused()
    {
        using var ledger = await new Support.Ledger { Fixture = Bed(1) }.Begin();
        var first = await ledger.Do<RecheckBody>(Recheck(0.0001, "a"));
        var refused = await ledger.Do<RefusalBody>(Recheck(0.0001, "b") with { Column = 7 });
        await ledger.Again();
        var written = ledger.Writer.Serial;

        Assert.Equal(first.Serial, (await ledger.Do<RecheckBody>(Recheck(0.0001, "a", refuse: true))).Serial);
        Assert.Equal(refused.Serial, (await ledger.Do<RefusalBody>(Recheck(0.0001, "b") with { Column = 7 })).Serial);
        Assert.Equal(written, ledger.Writer.Serial);
        RecheckAsk[] others =
        [
            Recheck(0.0002, "a"), Recheck(0.0001, "a", note: "n"), Recheck(0.0001, "a") with { By = "x" }, Recheck(0.0001, "a") with { MasterMetres = 0.081 },
            Recheck(0.0001, "a") with { WithinMetres = 0.000001 }, Recheck(0.0001, "a") with { Row = 1 }, Recheck(0.0001, "b"),
        ];
        foreach (var other in others)
        {
            Assert.Contains("belongs to another request", (await ledger.Do<RefusalBody>(other)).Text, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task The_newest_rechecks_are_read_in_order_and_older_ones_by_the_index_without_answers()
    {
        using var ledger = await new Support.Ledger { Fixture = Bed(1) }.Begin();
        var serials = new List<long>();
        for (var i = 0; i < 5; i++)
        {
            serials.Add((await ledger.Do<RecheckBody>(Recheck(i * 1e-5))).Serial);
            await ledger.Do<AnswerBody>(Support.Ledger.Locate());
        }

        using var reader = LedgerFile.OpenReader(ledger.Folder);
        Assert.Equal(serials[3..], LedgerQueries.Rechecks(reader, "bed", long.MaxValue, 2).Select(r => r.Serial));
        Assert.Equal(serials[..3], LedgerQueries.Rechecks(reader, "bed", serials[3], 10).Select(r => r.Serial));
        Assert.Empty(LedgerQueries.Rechecks(reader, "bed-2", long.MaxValue, 10));
        using var plan = reader.CreateCommand();
        plan.CommandText = "EXPLAIN QUERY PLAN " + LedgerQueries.RechecksSql;
        plan.Parameters.AddWithValue("$fixture", "bed");
        plan.Parameters.AddWithValue("$below", long.MaxValue);
        plan.Parameters.AddWithValue("$count", 5);
        using var rows = plan.ExecuteReader();
        Assert.True(rows.Read());
        Assert.Contains("entry_standing", rows.GetString(3), StringComparison.Ordinal);
    }

    private static RecheckAsk Recheck(double y, string? request = null, string? note = null, bool refuse = false) =>
        new(new("bench", null, null, null, request), "bed")
    {
        By = "setter", Note = note, MasterMetres = 0.08, FoundMetres = new(0, y, 0), RefuseAfterMiss = refuse,
    };

    private static AdoptAsk Adopt(Support.Ledger ledger, int number) =>
        new(new("bench", null, null), "bed", number) { By = "setter", Why = "calibrated", Folder = ledger.Fixture };

    private static FixtureFolder Bed(params int[] numbers) =>
        new("bed", [.. numbers.Select(n => Support.Ledger.Revision(n, """, "limits": { "recheck": "0.5 mm" }"""))], []);
}

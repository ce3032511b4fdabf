using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Lots;
using Stockseat.Answers.Measured;
using Stockseat.Answers.State;
using Stockseat.Answers.Stock;

namespace Stockseat.Ledger.Tests.Writing;

public sealed class LotTests
{
    private static readonly LotTerms H11 = new LotDescription { Nominal = 0.09, Tolerance = "h11" }.Resolve(out _)!;
    private static readonly LotTerms Wide = new LotDescription { Nominal = 0.09, Plus = 0.001, Minus = 0.001 }.Resolve(out _)!;

    [Fact]
    public async Task Of_described_lots_the_newest_description_is_found_again_at_an_opening()
    {
        using var ledger = await new Support.Ledger().Begin();
        await ledger.Do<LotDescribedBody>(Describe("D4", H11));
        var other = await ledger.Do<LotDescribedBody>(Describe("E5", new()));
        var newest = await ledger.Do<LotDescribedBody>(Describe("D4", Wide));
        await ledger.Do<AnswerBody>(Support.Ledger.Locate());
        await ledger.Again();

        Assert.Equal([("D4", newest.Serial, Wide), ("E5", other.Serial, new())],
            ledger.Writer.Situation.Lots.OrderBy(l => l.Key, StringComparer.Ordinal).Select(l => (l.Key, l.Value.Serial, l.Value.Terms)));
        Assert.Equal(Wide, (await ledger.Do<MeasurementBody>(Push("D4", 0.0905))).LotTerms);
        Assert.Equal("measurement-outside-lot", (await ledger.Do<RefusalBody>(Push("D4", 0.0915))).Reason);
        Assert.Equal("lot-unknown", (await ledger.Do<RefusalBody>(Push("F6", 0.09))).Reason);
        Assert.True(ledger.Verify().Whole);
    }

    [Fact]
    public async Task Descriptions_are_found_by_the_index_that_leaves_out_answers()
    {
        using var ledger = await new Support.Ledger().Begin();
        using var other = ledger.Other();
        using var command = other.CreateCommand();
        command.CommandText =
            "EXPLAIN QUERY PLAN SELECT serial FROM entry WHERE kind NOT IN ('answer', 'refusal') AND fixture IS NULL AND kind = "
            + "'lot-described' ORDER BY serial";
        using var reader = command.ExecuteReader();

        Assert.True(reader.Read());
        Assert.Contains("INDEX entry_standing (fixture=? AND kind=?)", reader.GetString(3), StringComparison.Ordinal);
        Assert.False(reader.Read());
    }

    [Fact]
    public async Task A_retry_of_a_description_writes_nothing_twice_across_openings()
    {
        using var ledger = await new Support.Ledger().Begin();
        var described = await ledger.Do<LotDescribedBody>(Describe("D4", H11, "a"));
        var refused = await ledger.Do<RefusalBody>(Describe("A1", H11, "b") with { Configured = true });
        await ledger.Again();
        var written = ledger.Writer.Serial;

        Assert.Equal(described.Serial, (await ledger.Do<LotDescribedBody>(Describe("D4", H11, "a"))).Serial);
        Assert.Equal(refused.Serial, (await ledger.Do<RefusalBody>(Describe("A1", H11, "b") with { Configured = true })).Serial);
        Assert.Equal(written, ledger.Writer.Serial);
        Assert.Contains("belongs to another request", (await ledger.Do<RefusalBody>(Describe("D4", Wide, "a"))).Text, StringComparison.Ordinal);
        Assert.Contains("belongs to another request", (await ledger.Do<RefusalBody>(Describe("E5", H11, "a"))).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_retry_of_an_ask_for_a_stated_diameter_names_the_same_lot()
    {
        using var ledger = await new Support.Ledger().Begin();
        var ask = Support.Ledger.Locate(0.09, "a") with { Lot = "A1", LotTerms = Wide };
        var first = await ledger.Do<AnswerBody>(ask);

        Assert.Equal(first.Serial, (await ledger.Do(ask)).Serial);
        Assert.Contains("belongs to another request", (await ledger.Do<RefusalBody>(ask with { Lot = null, LotTerms = null })).Text, StringComparison.Ordinal);
        Assert.Contains("belongs to another request", (await ledger.Do<RefusalBody>(ask with { Lot = "B2" })).Text, StringComparison.Ordinal);
        Assert.Equal("measurement-outside-lot",
            (await ledger.Do<RefusalBody>(ask with { LotTerms = new() { Nominal = 0.08, Plus = 0, Minus = 0.001 } })).Reason);
    }

    private static DescribeLotAsk Describe(string lot, LotTerms terms, string? request = null) =>
        new(new("setter", null, null, null, request), lot) { Terms = terms, Configured = false };

    private static MeasureAsk Push(string lot, double diameter) => Support.Ledger.Measured(diameter, lot: lot) with { LotTerms = null };
}

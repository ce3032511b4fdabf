using Stockseat.Answers.Measured;
using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Audit.Tests.Reviewing;

public sealed class OtherLotBetweenTests
{
    [Fact]
    public async Task A_push_of_another_lot_that_was_refused_between_two_picks_is_found()
    {
        using var day = await Day.Begin();
        await day.Measure(82, "A");
        var before = await day.Use();
        var refused = await day.MeasureRefused([84], "B");
        await day.Measure(82, "A");
        var after = await day.Use();

        day.Review().One(FindingRule.OtherLotBetween, before.Serial, refused.Serial, after.Serial).Says(
            $"At 08:00:50 UTC lot B was measured for bed (entry {refused.Serial}, 84.000 mm), between answer {before.Serial} of lot A and answer "
                + $"{after.Serial} (a pick with 82.000 mm of measurement {refused.Serial + 1} of lot A), and nobody said that the nests were emptied.",
            "That push was refused (lot-still-loaded), so no answer used its diameter.");
    }

    [Fact]
    public async Task In_entries_of_version_1_the_other_lot_s_diameter_was_used()
    {
        using var day = await Day.Begin();
        await day.Measure(82, "A");
        var before = await day.Use();
        var measured = await day.Measure(84, "A");
        var after = await day.Use();

        // Version 1 did not refuse it.
        var review = day.Review(with: r => r with
        {
            Entries = [.. r.Entries.Select(e => e.Serial == measured.Serial ? e with { Body = measured with { Lot = "B" } } : e)],
            Answers = [.. r.Answers.Select(a => a with { Between = a.Between?.Select(b => b is MeasurementBody m ? m with { Lot = "B" } : b).ToList() })],
        });

        review.One(FindingRule.OtherLotBetween, before.Serial, measured.Serial, after.Serial).Says("lot B was measured", "84.000 mm");
        Assert.DoesNotContain("refused", review.One(FindingRule.OtherLotBetween, before.Serial, measured.Serial, after.Serial).What, StringComparison.Ordinal);
    }

    [Fact]
    public async Task With_emptied_between_them_or_with_the_same_lot_there_is_no_finding()
    {
        using var day = await Day.Begin();
        await day.Measure(82, "A");
        await day.Use();
        await day.Measure(82.1, "A");
        await day.Use();
        await day.Emptied();
        await day.Measure(84, "B");
        await day.Use();

        day.Review().None(FindingRule.OtherLotBetween);
    }
}

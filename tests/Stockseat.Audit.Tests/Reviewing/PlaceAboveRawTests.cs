using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Audit.Tests.Reviewing;

public sealed class PlaceAboveRawTests
{
    [Fact]
    public async Task A_place_larger_than_the_raw_stock_says_both_diameters()
    {
        using var day = await Day.Begin();
        await day.Measure(82);
        await day.Use();
        var refused = await day.PlaceRefused(90);

        day.Review().One(FindingRule.PlaceAboveRaw, refused.Serial).Says(
            $"At 08:00:50 UTC controller press-cell asked for a place of 90.000 mm into bed and was refused (entry {refused.Serial}, diameter-above-raw): "
                + "that is larger than the raw stock, which was measured with 82.000 mm.");
    }

    [Fact]
    public async Task A_place_of_less_or_one_that_was_refused_for_something_else_gives_no_finding()
    {
        using var day = await Day.Begin();
        await day.Measure(82);
        await day.Use(76, purpose: Answers.Entries.Purpose.Place);
        await day.PlaceRefused(20);

        day.Review().None(FindingRule.PlaceAboveRaw);
    }
}

using Stockseat.Answers.Confirm;
using Stockseat.Answers.Entries;
using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Audit.Tests.Reviewing;

/// <summary>Plausible mistakes at a cell, each played against a ledger; the review of the file has to name the mistake first.</summary>
public sealed class MistakeTests
{
    /// <summary>What version 1 served and recorded without a word: nobody named a lot, and nothing was refused.</summary>
    private const int Before = 1;

    [Fact]
    public async Task The_next_lot_pushed_early_while_the_controller_names_no_lot_is_named_first_in_a_ledger_of_version_1()
    {
        using var day = await Day.Begin(rules: Before);
        await day.Measure(82, "A");
        var right = await day.ConfirmedOfVersion1();
        var early = await day.Measure(84, "B");
        var wrong = await day.ConfirmedOfVersion1();

        var review = day.OfFile();

        Assert.All(day.Ledger.Rows(), r => Assert.StartsWith("{\"v\":1,", r.Body, StringComparison.Ordinal));
        Assert.Empty(review.Evidence.Whole!.Faults);
        Assert.Empty(review.Evidence.Replay.Differences);
        review.First(FindingRule.OtherLotBetween, right.Serial, early.Serial, wrong.Serial);
        // By hand: the centre is √((R + 6)² − 30²) above the pins: √(48² − 900) − √(47² − 900) = 37.470 − 36.180 = 1.290 mm.
        Assert.Equal(0.001290, review.Findings[0].MovedMetres!.Value, 6);
        Assert.True(review.Findings[0].OnLastAnswer);
        Assert.StartsWith(
            "Most likely the robot had the diameter of another lot than the one in the nests; the robot may have been up to 1.290 mm off (finding 1, "
                + "bed, ", review.Summary[0], StringComparison.Ordinal);
        Assert.Equal(
            $"bed: before, lot A, 82.000 mm for a pick by answer {right.Serial}; after, lot B, 84.000 mm by answer {wrong.Serial}.", review.Summary[1]);
    }

    [Fact]
    public async Task Digits_transposed_in_a_push_without_a_lot_are_named_as_a_jump_of_the_shift()
    {
        using var day = await Day.Begin();
        await day.Measure(86.2);
        var right = await day.Use();
        var wrong = await day.Measure(82.6);
        var answer = await day.Use();

        day.OfFile().First(FindingRule.ShiftJump, right.Serial, wrong.Serial, answer.Serial).Says(
            "86.2 mm and 82.6 mm differ only by two digits that changed places, as when a number is typed wrongly.");
    }

    [Fact]
    public async Task Digits_transposed_in_inches_are_seen_too_and_other_diameters_are_not_called_transposed()
    {
        using var day = await Day.Begin();
        await day.Measure(3.342 * 25.4);
        await day.Use();
        await day.Measure(3.432 * 25.4);
        await day.Use();
        Assert.Contains("3.342 in and 3.432 in differ only by two digits", day.OfFile().Findings[0].What, StringComparison.Ordinal);

        await day.Measure(82.11);
        await day.Use();
        Assert.All(day.OfFile().Findings.Where(f => f.What.Contains("82.110 mm", StringComparison.Ordinal)), f =>
            Assert.DoesNotContain("digits", f.What, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(null, FindingRule.ShiftJump)]
    [InlineData("C", FindingRule.OtherLotBetween)]
    public async Task A_push_meant_for_another_fixture_is_named(string? lot, FindingRule rule)
    {
        using var day = await Day.Begin(rules: Before);
        await day.Measure(82, "A");
        var right = await day.ConfirmedOfVersion1();
        var meantForTheRack = await day.Measure(90, lot);
        var answer = await day.ConfirmedOfVersion1();

        day.OfFile().First(rule, right.Serial, meantForTheRack.Serial, answer.Serial);
    }

    [Fact]
    public async Task A_pick_with_a_stated_diameter_that_is_not_the_measured_one_is_named()
    {
        using var day = await Day.Begin();
        var measured = await day.Measure(82, "A");
        var answer = await day.Use(86);

        day.OfFile().First(FindingRule.StatedNotMeasured, measured.Serial, answer.Serial);
    }

    [Fact]
    public async Task A_place_larger_than_the_raw_stock_that_version_1_served_is_named()
    {
        using var day = await Day.Begin(rules: Before);
        var raw = await day.Measure(82, "A");
        await day.ConfirmedOfVersion1();
        var place = await day.Locate(84, purpose: Purpose.Place);
        await day.ConfirmBare(place);

        day.OfFile().First(FindingRule.PlaceAboveRaw, raw.Serial, place.Serial).Says(
            $"was served a place of 84.000 mm into bed (answer {place.Serial}): that is larger than the raw stock, which was measured with 82.000 mm (entry "
                + $"{raw.Serial} of lot A).");
    }

    [Fact]
    public async Task A_place_as_large_as_the_raw_stock_that_version_1_served_gives_no_finding()
    {
        using var day = await Day.Begin(rules: Before);
        await day.Measure(82, "A");
        await day.ConfirmBare(await day.Locate(82, purpose: Purpose.Place));

        day.OfFile().None(FindingRule.PlaceAboveRaw);
    }

    [Fact]
    public async Task Two_people_who_adopt_one_after_the_other_are_both_named_with_what_each_changed()
    {
        using var day = await Day.Begin();
        var before = await day.Use(82);
        var one = await day.Adopt(2, """, "standOff": { "pick": "0.5 mm" }""", "day setter");
        var two = await day.Adopt(3, """, "standOff": { "pick": "2 mm" }""", "night setter");
        var after = await day.Use(82);

        var review = day.OfFile();

        review.First(FindingRule.AdoptionBetween, before.Serial, one.Serial, two.Serial, after.Serial).Says(
            "night setter put revision 3 of bed into force",
            $"Before that day setter put revision 2 into force at 08:00:40 UTC (entry {one.Serial}: bed moved).");
        Assert.Equal([(one.Serial, 1, 2), (two.Serial, 2, 3)], review.Changes.Select(c => (c.Serial, c.Before, c.After)));
        Assert.Equal(("standOff.pick", "0.0005", "0.002", "m"), review.Changes[1].Changes.Select(c => (c.Key, c.Before, c.After, c.Unit)).Single());
    }

    [Fact]
    public async Task A_confirmation_without_numbers_is_named_where_nobody_said_that_the_move_was_carried_out()
    {
        using var day = await Day.Begin();
        var answer = await day.Locate(82);
        var bare = await day.ConfirmBare(answer);

        Assert.Equal(ConfirmationBody.None, bare.Numbers);
        day.OfFile().First(FindingRule.NotCarriedOut, answer.Serial, bare.Serial).Says(
            $"No number was read back (entry {bare.Serial}): whether the controller holds the numbers that were served is not known.");
    }
}

using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Audit.Tests.Reviewing;

public sealed class RefusedAndNoAnswerTests
{
    [Fact]
    public async Task A_hold_is_reported_with_its_holder_and_refusals_in_a_row_are_one_finding()
    {
        using var day = await Day.Begin();
        await day.Measure(82, "A");
        var had = await day.Use();
        var held = await day.Hold("day setter");
        var one = await day.LocateRefused();
        var two = await day.LocateRefused();

        day.Review().One(FindingRule.RefusedAndNoAnswer, one.Serial, two.Serial).Says(
            "At 08:01:00 UTC controller press-cell asked for bed and was refused, 2 times up to 08:01:10 UTC, because day setter held it since entry "
                + $"{held.Serial} (fixture-held); it got no answer after that up to 08:01:10 UTC, the ledger's last entry.",
            $"The last answer before that it could have used is {had.Serial} of 08:00:20 UTC: a pick with 82.000 mm of measurement 3 of lot A, bx 0.000, by "
                + "1.309, bz 0.000 mm.");
    }

    [Fact]
    public async Task A_missing_measurement_says_why_there_was_none_and_that_the_nests_were_emptied_since()
    {
        using var day = await Day.Begin();
        await day.Measure(82);
        await day.Use();
        var emptied = await day.Emptied();
        var refused = await day.LocateRefused();

        day.Review().One(FindingRule.RefusedAndNoAnswer, refused.Serial).Says(
            $"because it had no valid measurement (measurement-missing: the nests were emptied or refilled (entry {emptied.Serial}))",
            $"; the nests were emptied or refilled since (entry {emptied.Serial}).");
    }

    [Fact]
    public async Task A_stale_measurement_says_how_old_it_was()
    {
        using var day = await Day.Begin();
        await day.Measure(82);
        day.Pass(TimeSpan.FromHours(9));
        var refused = await day.LocateRefused();

        day.Review().One(FindingRule.RefusedAndNoAnswer, refused.Serial)
            .Says(
                "because its measurement was 32410 s old, and 28800 s is fresh (measurement-stale)", "No earlier answer is known that it could have used.");
    }

    [Fact]
    public async Task Several_reasons_are_each_reported_once()
    {
        using var day = await Day.Begin();
        await day.LocateRefused(20);
        await day.Hold("setter");
        await day.LocateRefused();
        await day.LocateRefused();

        Assert.Single(day.Review().Findings, f => f.Rule == FindingRule.RefusedAndNoAnswer)
            .Says("3 times up to", "(diameter-below-envelope) and because setter held it since entry 4 (fixture-held) (2 times);");
    }

    [Fact]
    public async Task Another_controller_s_answer_is_reported_as_such_and_does_not_make_up_for_a_refusal()
    {
        using var day = await Day.Begin();
        var had = await day.Use(82, client: "other-cell");
        var refused = await day.LocateRefused(20);
        await day.Use(82, client: "other-cell");

        day.Review().One(FindingRule.RefusedAndNoAnswer, refused.Serial).Says($"could have used is {had.Serial} of 08:00:10 UTC to controller other-cell:");
    }

    [Fact]
    public async Task The_finding_reaches_to_the_end_of_the_window_or_of_the_entries_shown()
    {
        using var day = await Day.Begin();
        var refused = await day.LocateRefused();
        day.Pass(TimeSpan.FromHours(1));
        await day.Hold("setter");
        var question = new ReviewQuestion { Serial = refused.Serial };

        day.Review(question).One(FindingRule.RefusedAndNoAnswer, refused.Serial).Says("it got no answer after that up to 08:02:10 UTC.");
        day.Review(question, r => r with { LeftOut = 5 }).One(FindingRule.RefusedAndNoAnswer, refused.Serial)
            .Says("it got no answer after that up to 08:00:10 UTC.");
    }

    [Fact]
    public async Task An_answer_after_the_refusal_ends_the_finding()
    {
        using var day = await Day.Begin();
        await day.LocateRefused();
        await day.Measure(82);
        await day.Use();

        day.Review().None(FindingRule.RefusedAndNoAnswer);
    }
}

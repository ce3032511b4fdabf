using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Audit.Tests.Reviewing;

public sealed class SummaryTests
{
    [Fact]
    public async Task The_summary_says_what_went_wrong_what_the_robot_had_and_how_far_to_trust_the_record()
    {
        using var day = await Day.Begin();
        await day.Measure(82, "A");
        var answer = await day.Locate();
        var refused = await day.Misread(answer, "by", "0.001409");
        await day.Hold("setter");
        await day.LocateRefused();

        Assert.Equal(
            [
                "Most likely the controller moved by a number that was not the one it was served; the robot may have been up to 0.100 mm off (finding 1, "
                    + "bed, 08:00:30 UTC on 2026-11-25).",
                "bed: lot A, 82.000 mm for a pick by answer 4; no pick before it is known here.",
                "At 08:00:50 UTC the last answer was: for bed answer 4 of 08:00:20 UTC to controller press-cell, a pick with 82.000 mm of measurement 3 of "
                    + $"lot A, revision 1, shift bx 0.000, by 1.309, bz 0.000 mm, not confirmed (a confirmation was refused, entry {refused.Serial}).",
                "How far this record can be trusted: the hashes of the entries shown fit together, the whole ledger (7 entries) was verified without a fault "
                    + "and has "
                    + "no seal, so somebody who can write it could have forged it, and all 7 entries that follow from others came out the same when computed "
                    + "again.",
            ],
            day.Review().Summary);
    }

    [Fact]
    public async Task Of_two_findings_of_one_rule_the_one_nearest_to_the_instant_comes_first()
    {
        using var day = await Day.Begin();
        var one = await day.Locate(82);
        var near = await day.Misread(one, "by", "0.001409");
        day.Pass(TimeSpan.FromMinutes(1));
        var two = await day.Locate(82);
        var far = await day.Misread(two, "by", "0.001209"); // as far off as the other one

        Assert.Contains("1.409 mm", day.Review(new() { Serial = near.Serial }).Findings[0].What, StringComparison.Ordinal);
        Assert.Contains("1.209 mm", day.Review(new() { Serial = far.Serial }).Findings[0].What, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_hint_alone_is_not_reported_as_what_went_wrong()
    {
        using var day = await Day.Begin();
        await day.Locate(82);

        Assert.StartsWith(
            "Nothing was found that certainly sent the robot to a wrong place; look first at this: an answer was never confirmed (finding 1, bed, 08:00:10 UTC "
                + "on 2026-11-25).", day.Review().Summary[0], StringComparison.Ordinal);
    }

    [Fact]
    public async Task Of_several_fixtures_the_one_concerned_comes_first_and_the_rest_are_counted()
    {
        using var day = await Day.Begin();
        var answer = await day.Locate(82);
        await day.Misread(answer, "by", "0");

        var last = day.Review(with: r => r with
        {
            Fixtures =
            [
                .. Enumerable.Range(0, 4).Select(
                    i => new FixtureThen { Fixture = $"rack-{i}", LastAnswer = answer with { Fixture = $"rack-{i}", Serial = 100 + i } }),
                .. r.Fixtures,
            ],
        }).Summary.Single(s => s.StartsWith("At ", StringComparison.Ordinal));

        Assert.StartsWith("At 08:00:20 UTC the last answers were: for bed answer 3 of ", last, StringComparison.Ordinal);
        Assert.EndsWith("; 2 more fixtures had answers too.", last, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_instant_of_another_day_has_its_date()
    {
        using var day = await Day.Begin();
        day.Pass(new TimeSpan(15, 59, 30));
        await day.Locate(82);
        await day.LocateRefused(20);
        await day.LocateRefused(20);
        await day.LocateRefused(20);

        Assert.StartsWith(
            "At 2026-11-25 23:59:50 UTC controller press-cell asked for bed and was refused, 3 times up to 00:00:10 UTC,",
            day.Review().Findings[0].What, StringComparison.Ordinal);
        Assert.EndsWith("may have gone on without one (finding 1, bed, 00:00:10 UTC on 2026-11-26).", day.Review().Summary[0], StringComparison.Ordinal);
    }

    [Fact]
    public void Rules_are_named_as_a_report_names_them()
    {
        Assert.Equal(
            [
                "ledger-not-whole", "does-not-follow", "read-back-differs", "before-refill", "other-lot-between", "stated-not-measured",
                "shift-jump", "far-from-lot", "place-above-raw",
                "adoption-between", "recheck-missed",
                "refused-and-no-answer", "not-confirmed", "not-carried-out", "unproven-revision",
                "clock-step", "restart", "near-uncertainty-limit", "note", "picked-twice", "picked-empty", "placed-into-full", "load-not-ended",
            ],
            Enum.GetValues<FindingRule>().Order().Select(r => r.Name()));
    }
}

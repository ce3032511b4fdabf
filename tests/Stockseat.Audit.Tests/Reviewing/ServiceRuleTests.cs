using Stockseat.Answers.Entries;
using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Audit.Tests.Reviewing;

/// <summary>recheck-missed, clock-step, restart and near-uncertainty-limit.</summary>
public sealed class ServiceRuleTests
{
    private const string RecheckLimit = """, "limits": { "recheck": "0.3 mm" }""";

    [Fact]
    public async Task A_recheck_that_missed_says_how_far_and_what_is_allowed()
    {
        using var day = await Day.Begin(RecheckLimit);
        var missed = await day.Recheck(0.5);

        var found = day.Review().One(FindingRule.RecheckMissed, missed.Serial);

        found.Says(
            "At 08:00:10 UTC setter found a master of 80.000 mm in nest 0,0 of bed 0.500 mm from where revision 1 predicts it (0.500 mm along the seat axis, "
                + "0.000 mm across, 0.000 mm out of the plan); the limit is 0.300 mm.");
        Assert.Contains("Asks were still answered.", found.Why, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_missed_recheck_from_before_the_window_is_found_while_it_still_counts()
    {
        using var day = await Day.Begin(RecheckLimit);
        var missed = await day.Recheck(0.5, refuse: true);
        day.Pass(TimeSpan.FromHours(1));

        Assert.Contains("Asks were refused from then on.", day.Review().One(FindingRule.RecheckMissed, missed.Serial).Why, StringComparison.Ordinal);
        await day.Adopt(2, """, "limits": { "recheck": "0.4 mm" }""");
        day.Review().None(FindingRule.RecheckMissed);
    }

    [Fact]
    public async Task A_recheck_that_passed_or_that_nothing_judges_gives_no_finding()
    {
        using var passed = await Day.Begin(RecheckLimit);
        await passed.Recheck(0.2);
        passed.Review().None(FindingRule.RecheckMissed);

        using var unjudged = await Day.Begin();
        await unjudged.Recheck(5);
        unjudged.Review().None(FindingRule.RecheckMissed);
    }

    [Theory]
    [InlineData(-600, "the clock was set back by 600 s", "No measurement from before it is used any more")]
    [InlineData(90, "the clock was set forward by 90 s", "go by the order of the serials")]
    public async Task A_clock_that_was_set_is_found(int seconds, string said, string why)
    {
        using var day = await Day.Begin();
        day.Time.Set(TimeSpan.FromSeconds(seconds));
        await day.Use(82);
        var step = Assert.Single(day.Ledger.Rows(), r => r.Kind == Kinds.ClockStep);

        var found = day.Review().One(FindingRule.ClockStep, step.Serial);

        found.Says(said);
        Assert.Contains(why, found.Why, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_stop_and_a_start_are_found_and_the_first_start_is_not()
    {
        using var day = await Day.Begin();
        await day.Use(82);
        day.Review().None(FindingRule.Restart);
        day.Review().None(FindingRule.ClockStep);

        await day.Ledger.Again();
        day.Review().One(FindingRule.Restart, 6, 7).Says(
            "At 08:00:30 UTC the service was started again (entry 7), after it was stopped cleanly at 08:00:30 UTC.");
    }

    [Fact]
    public async Task A_service_that_ended_without_a_clean_stop_names_the_answer_that_may_not_have_arrived()
    {
        using var day = await Day.Begin();
        var answer = await day.Locate(82);
        await day.Ledger.Kill();
        day.Ledger.Unclean = true;
        await day.Ledger.Begin();

        var found = day.Review().One(FindingRule.Restart, 4, 5);

        found.Says(
            $"the service before it did not stop cleanly, and its last entry is 3; its last answer is {answer.Serial} of 08:00:10 UTC to controller "
                + $"press-cell.");
        Assert.Contains("may not have arrived", found.Why, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("0.125 mm", true)] // U is 0.115 mm from the teaching alone, 2 · 0.1 / √3
    [InlineData("0.129 mm", false)]
    public async Task Uncertainties_above_nine_tenths_of_the_limit_are_one_finding_together(string limit, bool near)
    {
        using var day = await Day.Begin(
            $$""", "limits": { "uncertainty": "{{limit}}" }, "uncertainty": { "teaching": "0.1 mm", "askedDiameter": "0.0001 mm" }""");
        var one = await day.Use(80);
        var two = await day.Use(80);

        if (near)
        {
            day.Review().One(FindingRule.NearUncertaintyLimit, one.Serial, two.Serial)
                .Says(
                    "was served with U (k = 2) of 0.115 mm, the largest of 2 answers (3 and 6) that are near it, 92 % of the 0.125 mm that revision 1 allows.");
        }
        else
        {
            day.Review().None(FindingRule.NearUncertaintyLimit);
        }
    }
}

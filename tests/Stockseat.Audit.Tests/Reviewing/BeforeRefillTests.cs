using Stockseat.Answers.Entries;
using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Audit.Tests.Reviewing;

public sealed class BeforeRefillTests
{
    [Fact]
    public async Task The_position_that_the_robot_had_at_the_instant_was_for_the_stock_that_was_taken_out()
    {
        using var day = await Day.Begin();
        await day.Measure(82, "A");
        var answer = await day.Use();
        var emptied = await day.Emptied();
        await day.Measure(84, "B");

        day.Review().One(FindingRule.BeforeRefill, answer.Serial, emptied.Serial).Says(
            $"At 08:01:00 UTC the last that controller press-cell had for bed was answer {answer.Serial} of 08:00:20 UTC (a pick with 82.000 mm of "
                + $"measurement 3 of lot A), but the nests were emptied or refilled at 08:00:50 UTC (entry {emptied.Serial}) and nothing had been served to "
                + "it since.");
    }

    [Fact]
    public async Task Nests_emptied_before_the_window_count()
    {
        using var day = await Day.Begin();
        await day.Measure(82, "A");
        var answer = await day.Use();
        var emptied = await day.Emptied();
        await day.Measure(84, "B");
        day.Pass(TimeSpan.FromHours(1));

        var found = day.Review().One(FindingRule.BeforeRefill, answer.Serial, emptied.Serial);
        found.Says("emptied or refilled at 08:00:50 UTC");
    }

    [Fact]
    public async Task After_the_next_ask_or_before_the_nests_were_emptied_there_is_no_finding()
    {
        using var day = await Day.Begin();
        await day.Measure(82, "A");
        var answer = await day.Use();
        await day.Emptied();
        await day.Measure(84, "B");
        await day.Use();

        day.Review().None(FindingRule.BeforeRefill);
        day.Review(new() { Serial = answer.Serial }).None(FindingRule.BeforeRefill);
    }

    [Fact]
    public async Task An_onlooker_s_ask_does_not_hide_that_the_robot_did_not_ask()
    {
        using var day = await Day.Begin();
        await day.Measure(82, "A");
        var answer = await day.Use();
        var emptied = await day.Emptied();
        await day.Measure(84, "B");
        await day.Locate(client: "bench");

        day.Review().One(FindingRule.BeforeRefill, answer.Serial, emptied.Serial);
    }

    [Fact]
    public async Task A_refused_ask_counts_as_an_ask()
    {
        using var day = await Day.Begin();
        await day.Measure(82, "A");
        await day.Use();
        await day.Emptied();
        await day.LocateRefused();

        day.Review().None(FindingRule.BeforeRefill);
    }

    [Fact]
    public async Task An_earlier_answer_that_is_confirmed_after_the_emptying_was_used()
    {
        using var day = await Day.Begin();
        await day.Measure(82, "A");
        var answer = await day.Locate();
        var emptied = await day.Emptied();
        var confirmed = await day.Confirm(answer);

        day.Review().One(FindingRule.BeforeRefill, answer.Serial, emptied.Serial, confirmed.Serial)
            .Says("At 08:00:40 UTC controller press-cell confirmed that it had applied answer 4", "emptied or refilled at 08:00:30 UTC");
    }

    [Fact]
    public async Task A_stated_diameter_is_reported_since_the_ledger_does_not_know_which_stock_it_belongs_to()
    {
        using var day = await Day.Begin();
        var answer = await day.Use(82);
        var emptied = await day.Emptied();

        day.Review().One(FindingRule.BeforeRefill, answer.Serial, emptied.Serial)
            .Says("the ledger does not know whether it belongs to the old stock or to the new");
    }

    [Fact]
    public async Task A_place_with_the_finished_diameter_is_for_the_piece_in_the_gripper()
    {
        using var day = await Day.Begin();
        var answer = await day.Locate(76, purpose: Purpose.Place);
        await day.Emptied();
        await day.Confirm(answer);

        day.Review().None(FindingRule.BeforeRefill);
    }

    [Fact]
    public async Task A_place_does_not_count_as_asking_for_the_new_stock()
    {
        using var day = await Day.Begin();
        await day.Measure(82, "A");
        var pick = await day.Use();
        var emptied = await day.Emptied();
        await day.Use(76, purpose: Purpose.Place);

        day.Review().One(FindingRule.BeforeRefill, pick.Serial, emptied.Serial);
    }

    [Fact]
    public async Task An_answer_from_a_void_measurement_is_reported_as_one_that_the_service_never_decides()
    {
        using var day = await Day.Begin();
        var measured = await day.Measure(82);
        var emptied = await day.Emptied();
        await day.Measure(82);
        var answer = await day.Locate();

        day.Review(with: r => r with { Answers = [.. r.Answers.Select(a => a with { Answer = a.Answer with { Measurement = measured.Serial } })] })
            .One(FindingRule.BeforeRefill, measured.Serial, emptied.Serial, answer.Serial).Says("the service never decides that");
    }
}

using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Audit.Tests.Reviewing;

public sealed class NotConfirmedTests
{
    [Fact]
    public async Task An_answer_that_was_never_confirmed_says_whether_it_was_a_first_one()
    {
        using var day = await Day.Begin();
        var answer = await day.Locate(82);

        day.Review().One(FindingRule.NotConfirmed, answer.Serial).Says(
            "At 08:00:10 UTC controller press-cell was served answer 3 for bed (a pick with 82.000 mm as the controller stated it) and never confirmed it. It "
                + "was marked first, to be run at reduced speed, which makes this more important.");
    }

    [Fact]
    public async Task Unconfirmed_answers_are_grouped_by_controller_and_superseded_ones_are_marked()
    {
        using var day = await Day.Begin();
        await day.Use(82);
        var one = await day.Locate(82);
        var two = await day.Locate(82);
        var other = await day.Locate(82, client: "bench");

        var found = day.Review().Findings.Where(f => f.Rule == FindingRule.NotConfirmed).ToList();

        Assert.Equal([[other.Serial], [one.Serial, two.Serial]], found.Select(f => f.Serials.ToArray()));
        found[1].Says(
            $"At 08:00:40 UTC to 08:00:50 UTC controller press-cell was served 2 answers for bed ({one.Serial} and {two.Serial}) and never confirmed them. "
                + $"Answer {one.Serial} was superseded by answer {two.Serial}, 10 s later.");
        Assert.DoesNotContain("first", found[1].What, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_confirmation_that_was_refused_as_malformed_is_reported_here()
    {
        using var day = await Day.Begin();
        var answer = await day.Locate(82);
        var refused = await day.Misread(answer, "by", "1,309");

        day.Review().One(FindingRule.NotConfirmed, answer.Serial).Says($"A confirmation was refused (entry {refused.Serial}, value-malformed).");
    }

    [Fact]
    public async Task An_answer_confirmed_after_the_window_or_read_back_wrongly_gives_no_finding()
    {
        using var day = await Day.Begin();
        var answer = await day.Locate(82);
        day.Pass(TimeSpan.FromMinutes(5));
        await day.Confirm(answer);
        day.Review(new() { Serial = answer.Serial }).None(FindingRule.NotConfirmed);

        await day.Misread(await day.Locate(82), "by", "0");
        day.Review().None(FindingRule.NotConfirmed);
    }
}

using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Audit.Tests.Reviewing;

public sealed class NotCarriedOutTests
{
    [Fact]
    public async Task An_answer_that_was_confirmed_and_of_which_nobody_said_done_is_found()
    {
        using var day = await Day.Begin();
        await day.Use(82);
        var answer = await day.Locate(82);
        var confirmed = await day.Confirm(answer);

        var found = day.Review().One(FindingRule.NotCarriedOut, answer.Serial, confirmed.Serial);
        found.Says(
            $"At 08:00:40 UTC controller press-cell was served answer {answer.Serial} for bed (a pick with 82.000 mm as the controller stated it) and "
                + $"confirmed it (entry {confirmed.Serial}), and nobody said that its move was carried out, up to 08:00:50 UTC, the ledger's last entry.");
        Assert.DoesNotContain("perhaps its program", found.What, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_controller_that_never_says_done_has_one_finding_which_says_so()
    {
        using var day = await Day.Begin();
        var one = await day.Locate(82);
        var first = await day.Confirm(one);
        var two = await day.Locate(82);
        var second = await day.Confirm(two);

        day.Review().One(FindingRule.NotCarriedOut, one.Serial, first.Serial, two.Serial, second.Serial).Says(
            $"was served 2 answers for bed ({one.Serial} and {two.Serial}) and confirmed them, and nobody said that their moves were carried out",
            $"Answers {one.Serial} and {two.Serial} were marked first.",
            "It said done of no answer in these minutes: perhaps its program does not know that word.");
    }

    [Fact]
    public async Task One_that_was_carried_out_in_the_minutes_after_the_instant_gives_no_finding()
    {
        using var day = await Day.Begin();
        var answer = await day.Locate(82);
        var confirmed = await day.Confirm(answer);
        await day.Done(answer);

        day.Review(new() { Serial = confirmed.Serial }).None(FindingRule.NotCarriedOut);
        day.Review().None(FindingRule.NotCarriedOut);
    }

    [Fact]
    public async Task Entries_of_version_1_and_answers_that_were_not_confirmed_give_no_finding()
    {
        using var day = await Day.Begin();
        var old = await day.Locate(82);
        await day.Confirm(old);
        await day.Locate(84);

        day.Review(with: r => r with { Answers = [.. r.Answers.Select(a => a.Answer.Serial == old.Serial ? a with { Answer = old with { Version = 1 } } : a)] })
            .None(FindingRule.NotCarriedOut);
    }
}

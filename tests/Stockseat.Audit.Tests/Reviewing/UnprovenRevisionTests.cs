using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Audit.Tests.Reviewing;

public sealed class UnprovenRevisionTests
{
    private const string Limits = """, "limits": { "recheck": "0.3 mm", "diameter": [ "70 mm", "100 mm" ] }""";

    [Fact]
    public async Task The_last_answer_from_a_revision_that_is_not_proven_says_what_is_lacking()
    {
        using var day = await Day.Begin(Limits);
        await day.Use(82);
        var answer = await day.Use(82);

        day.Review().One(FindingRule.UnprovenRevision, 2, answer.Serial).Says(
            $"At 08:00:40 UTC controller press-cell was served answer {answer.Serial} for bed (a pick with 82.000 mm as the controller stated it) from "
                + "revision 1 (entry 2), which rechecks had not proven by 08:01:00 UTC; still lacking was: seat a master in nest 0,0.");
    }

    [Fact]
    public async Task After_one_master_another_of_a_different_diameter_is_lacking()
    {
        using var day = await Day.Begin(Limits);
        await day.Recheck(0.1);
        await day.Use(82);

        Assert.Single(day.Review().Findings, f => f.Rule == FindingRule.UnprovenRevision)
            .Says("seat a master of 74 mm or less, or of 86 mm or more, in nest 0,0."); // a fifth of the range of 30 mm is 6 mm
    }

    [Fact]
    public async Task A_proven_revision_and_minutes_without_an_answer_give_no_finding()
    {
        using var day = await Day.Begin(Limits);
        day.Review().None(FindingRule.UnprovenRevision);
        await day.Prove();
        await day.Use(82);

        day.Review().None(FindingRule.UnprovenRevision);
    }
}

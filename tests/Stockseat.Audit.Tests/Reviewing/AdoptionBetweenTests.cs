using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Audit.Tests.Reviewing;

public sealed class AdoptionBetweenTests
{
    /// <summary>The values differ from those of revision 1 only with this part.</summary>
    private const string Other = """, "standOff": { "pick": "0.5 mm" }""";

    [Fact]
    public async Task After_the_last_answer_before_the_instant_the_robot_s_number_is_from_an_older_revision()
    {
        using var day = await Day.Begin();
        var answer = await day.Use(82);
        var adopted = await day.Adopt(2, Other);

        day.Review().One(FindingRule.AdoptionBetween, answer.Serial, adopted.Serial).Says(
            $"At 08:00:40 UTC setter put revision 2 of bed into force (entry {adopted.Serial}: bed moved), after answer {answer.Serial} of revision 1 to "
                + "controller press-cell, the last before 08:00:40 UTC.");
    }

    [Fact]
    public async Task Between_two_answers_the_finding_says_how_far_the_same_ask_moved()
    {
        using var day = await Day.Begin();
        var before = await day.Use(82);
        await day.Use(84);
        var adopted = await day.Adopt(2, Other);
        await day.Use(84);
        var after = await day.Use(82);

        // A stand-off of 0.5 mm acts like 1 mm more on the diameter: √(48.5² − 30²) − √(48² − 30²) = 0.638 mm, by hand.
        var found = day.Review().Findings.Single(f => f.Rule == FindingRule.AdoptionBetween);
        found.Says(
            "between answer 6 of revision 1 and answer 10 of revision 2. For a pick at nest 0,0 with 84.000 mm the shift moved by 0.638 mm (answers",
            " 6 and 10).");
        Assert.Contains(adopted.Serial, found.Serials);
        Assert.Equal((1, 2), (before.Revision, after.Revision));
    }

    [Fact]
    public async Task Where_no_two_asks_were_the_same_the_finding_says_how_far_the_answer_before_would_be()
    {
        using var day = await Day.Begin();
        var before = await day.Use(82);
        var adopted = await day.Adopt(2, Other);
        var after = await day.Use(84);

        var found = day.Review().One(FindingRule.AdoptionBetween, before.Serial, adopted.Serial, after.Serial);
        found.Says($"and answer {after.Serial} of revision 2. Asked again after it, answer {before.Serial} would be 0.647 mm from where it was.");
        Assert.EndsWith("from where it was.", found.What, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_first_adoption_a_repeated_one_and_one_after_both_the_last_answer_and_the_instant_give_no_finding()
    {
        using var day = await Day.Begin();
        var answer = await day.Use(82);
        await day.Adopt(1);
        day.Review().None(FindingRule.AdoptionBetween);

        await day.Adopt(2, Other);
        day.Review(new() { Serial = answer.Serial }).None(FindingRule.AdoptionBetween);
    }

    [Fact]
    public async Task An_adoption_before_anything_was_asked_gives_no_finding()
    {
        using var day = await Day.Begin();
        await day.Adopt(2, Other);
        await day.Use(82);

        day.Review().None(FindingRule.AdoptionBetween);
    }
}

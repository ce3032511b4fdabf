using Stockseat.Answers.Entries;
using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Audit.Tests.Reviewing;

public sealed class ReadBackDiffersTests
{
    [Fact]
    public async Task A_number_read_back_wrongly_gives_both_numbers_and_how_far_the_robot_may_be_off()
    {
        using var day = await Day.Begin();
        await day.Measure(82);
        var answer = await day.Locate(); // by = √(47² − 30²) − √(46² − 30²) = 1.309 mm
        var refused = await day.Misread(answer, "by", "0.001409");

        var found = day.Review().One(FindingRule.ReadBackDiffers, answer.Serial, refused.Serial);

        Assert.Equal(
            "At 08:00:30 UTC controller press-cell read back 1.409 mm as \"by\" of answer 4 of bed, which had served 1.309 mm: the robot may have moved 0.100 "
                + "mm off.", found.What);
        day.Review().None(FindingRule.NotConfirmed);
    }

    [Theory]
    [InlineData(ServedUnit.Millimetre, 3, "1.409", "1.409 mm as \"by\"", "served 1.309 mm: the robot may have moved 0.100 mm off.")]
    [InlineData(ServedUnit.Micrometre, 0, "1409", "1.409 mm as \"by\"", "served 1.309 mm: the robot may have moved 0.100 mm off.")]
    [InlineData(ServedUnit.Metre, 8, "0.00130901", "1.3090 mm as \"by\"", "served 1.3089 mm: the robot may have moved 0.0001 mm off.")]
    [InlineData(ServedUnit.Metre, 6, "1.309", "1309.000 mm as \"by\"", ", a wrong unit: one number is 1000 times the other.")]
    [InlineData(ServedUnit.Metre, 6, "0", "0.000 mm as \"by\"", "moved 1.309 mm off, and a register that was never set holds 0.")]
    [InlineData(ServedUnit.Metre, 6, "-0.001309", "-1.309 mm as \"by\"", "moved 2.618 mm off, a wrong sign.")]
    public async Task The_unit_that_was_served_is_used_and_the_likely_cause_is_named(ServedUnit unit, int decimals, string read, string said, string off)
    {
        using var day = await Day.Begin();
        var answer = await day.Locate(82, unit: unit, decimals: decimals);
        var refused = await day.Misread(answer, "by", read);

        day.Review().One(FindingRule.ReadBackDiffers, answer.Serial, refused.Serial).Says(said, off);
    }

    [Theory]
    [InlineData(
        "diameter", "0.084000",
        "84.000 mm as \"diameter\" of answer 3 of bed, which had served 82.000 mm: it may have worked with a diameter that is 2.000 mm off.")]
    [InlineData("qw", "0.999", "0.999 as \"qw\" of answer 3 of bed, which had served 1.000000: the gripper may have had another orientation than it was "
        + "taught.")]
    public async Task A_diameter_and_an_orientation_say_what_they_mean(string name, string read, string said)
    {
        using var day = await Day.Begin();
        var answer = await day.Locate(82);
        var refused = await day.Misread(answer, name, read);

        day.Review().One(FindingRule.ReadBackDiffers, answer.Serial, refused.Serial).Says(said);
    }

    [Fact]
    public async Task A_number_of_an_older_answer_is_recognised()
    {
        using var day = await Day.Begin();
        var older = await day.Use(82);
        var answer = await day.Locate(84);
        var refused = await day.Misread(answer, "by", FixedPoint.Text(older.ShiftBase[1]));

        day.Review().One(FindingRule.ReadBackDiffers, answer.Serial, refused.Serial)
            .Says($", and 1.309 mm is the by of answer {older.Serial}: the robot may have moved ");
    }

    [Fact]
    public async Task The_same_answer_misread_again_is_one_finding_and_a_later_confirmation_is_mentioned()
    {
        using var day = await Day.Begin();
        var answer = await day.Locate(82);
        var one = await day.Misread(answer, "by", "0.000000");
        var two = await day.Misread(answer, "by", "0.000001");
        var confirmed = await day.Confirm(answer);

        day.Review().One(FindingRule.ReadBackDiffers, answer.Serial, one.Serial, two.Serial)
            .Says($"(and one more time, entry {two.Serial})", $"; it read back what was served later (entry {confirmed.Serial}).");
    }

    [Fact]
    public async Task For_an_answer_that_is_not_known_here_the_numbers_are_shown_as_they_came()
    {
        using var day = await Day.Begin();
        var answer = await day.Locate(82);
        var other = await day.Locate(84);
        day.Pass(TimeSpan.FromHours(1));
        var refused = await day.Misread(answer, "diameter", "0.084000");

        var found = day.Review().One(FindingRule.ReadBackDiffers, answer.Serial, refused.Serial);

        found.Says($"read back 0.084000 as \"diameter\" of answer {answer.Serial}, which had served 0.082000.");
        Assert.NotEqual(answer.Serial, other.Serial);
    }

    [Fact]
    public async Task A_correct_read_back_and_one_refused_as_malformed_give_no_finding()
    {
        using var day = await Day.Begin();
        var answer = await day.Locate(82);
        await day.Misread(answer, "by", "1,309");
        await day.Confirm(answer);
        await day.Done(answer);

        Assert.Equal([FindingRule.UnprovenRevision], day.Review().Findings.Select(f => f.Rule));
    }
}

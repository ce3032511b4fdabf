using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Audit.Tests.Reviewing;

/// <summary>The order of findings: by what each may have moved, whether the last answer rests on it, and how near it is.</summary>
public sealed class FindingOrderTests
{
    [Theory]
    [InlineData("0.001409", FindingRule.StatedNotMeasured, FindingRule.ReadBackDiffers)] // 0.100 mm, less than the 2.5 mm of the diameters
    [InlineData("0.021309", FindingRule.ReadBackDiffers, FindingRule.StatedNotMeasured)] // 20 mm
    public async Task What_moved_the_robot_further_comes_first_whatever_its_rule(string read, FindingRule first, FindingRule second)
    {
        using var day = await Day.Begin();
        await day.Measure(86);
        await day.Misread(await day.Locate(82), "by", read);

        var findings = day.Review().Findings;

        Assert.Equal([first, second], findings.Take(2).Select(f => f.Rule));
        Assert.True(findings[0].MovedMetres > findings[1].MovedMetres);
    }

    [Theory]
    [InlineData("0.001409", 0.001, FindingRule.BeforeRefill)]
    [InlineData("0.006309", 0.001, FindingRule.ReadBackDiffers)] // 5 mm
    [InlineData("0.006309", 0.010, FindingRule.BeforeRefill)]
    public async Task What_is_not_known_in_millimetres_counts_as_the_jump_that_was_asked_about(string read, double jump, FindingRule first)
    {
        using var day = await Day.Begin();
        await day.Misread(await day.Locate(82), "by", read);
        await day.Emptied();

        var review = day.Review(new() { JumpMetres = jump });

        Assert.Null(review.Findings.Single(f => f.Rule == FindingRule.BeforeRefill).MovedMetres);
        Assert.Equal(first, review.Findings[0].Rule);
    }

    [Fact]
    public async Task Of_two_that_moved_it_equally_far_the_one_of_the_last_answer_comes_first_and_then_the_nearer_one()
    {
        using var day = await Day.Begin();
        var far = await day.Locate(82);
        await day.Misread(far, "by", "0.001409");
        day.Pass(TimeSpan.FromMinutes(1));
        var near = await day.Locate(82);
        var misread = await day.Misread(near, "by", "0.001409");

        var ofLast = day.Review(new() { Serial = misread.Serial }, r => r with { Fixtures = [.. r.Fixtures.Select(f => f with { LastAnswer = far })] });
        var ofNone = day.Review(new() { Serial = misread.Serial }, r => r with { Fixtures = [] });

        Assert.Equal([far.Serial, near.Serial], Misread(ofLast));
        Assert.Equal([near.Serial, far.Serial], Misread(ofNone));
        static IEnumerable<long> Misread(Review r) => r.Findings.Where(f => f.Rule == FindingRule.ReadBackDiffers).Select(f => f.Serials[0]);
    }

    [Fact]
    public async Task A_number_read_back_that_differs_by_less_than_the_last_digit_served_is_told_last()
    {
        using var day = await Day.Begin();
        await day.Misread(await day.Locate(82), "by", "0.0013096"); // 0.001309 was served

        var review = day.Review();

        Assert.True(review.Findings.Count > 1);
        Assert.Equal((FindingRule.ReadBackDiffers, true), (review.Findings[^1].Rule, review.Findings[^1].BelowResolution));
        review.Findings[^1].Says("That is less than the last digit that was served");
        Assert.StartsWith(
            "Nothing was found that certainly sent the robot to a wrong place; look first at this: ", review.Summary[0], StringComparison.Ordinal);
    }

    [Fact]
    public async Task One_digit_off_is_not_below_the_last_digit_served()
    {
        using var day = await Day.Begin();
        await day.Misread(await day.Locate(82), "by", "0.001310");

        Assert.False(day.Review().Findings[0].BelowResolution);
        Assert.Equal(FindingRule.ReadBackDiffers, day.Review().Findings[0].Rule);
    }

    [Fact]
    public async Task A_refusal_that_kept_a_wrong_number_from_the_robot_comes_behind_what_moved_it()
    {
        using var day = await Day.Begin();
        await day.Misread(await day.Locate(82), "by", "0.001311");
        await day.MeasureRefused([800], "A", Day.Terms);
        await day.LocateRefused();

        var rules = day.Review().Findings.Select(f => f.Rule).ToList();

        Assert.Equal(FindingRule.ReadBackDiffers, rules[0]);
        Assert.True(rules.IndexOf(FindingRule.FarFromLot) < rules.IndexOf(FindingRule.RefusedAndNoAnswer));
    }

    [Fact]
    public async Task Of_many_of_one_rule_the_first_five_and_the_rest_as_one_keep_their_places()
    {
        using var day = await Day.Begin();
        for (var i = 0; i < 8; i++)
        {
            await day.Misread(await day.Locate(82), "by", $"0.00{i + 2}309");
        }

        var found = day.Review().Findings.Where(f => f.Rule == FindingRule.ReadBackDiffers).ToList();

        Assert.Equal(6, found.Count);
        Assert.Equal([0.008, 0.007, 0.006, 0.005, 0.004, 0.003], found.Select(f => Math.Round(f.MovedMetres!.Value, 6)));
        Assert.StartsWith("3 more of this kind of bed, from ", found[^1].What, StringComparison.Ordinal);
    }
}

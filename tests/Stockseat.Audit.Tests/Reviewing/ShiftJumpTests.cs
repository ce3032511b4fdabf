using Stockseat.Answers.Entries;
using Stockseat.Audit.Reviewing.Results;

namespace Stockseat.Audit.Tests.Reviewing;

public sealed class ShiftJumpTests
{
    [Fact]
    public async Task A_jump_without_mention_of_other_stock_is_found()
    {
        using var day = await Day.Begin();
        await day.Measure(82);
        var one = await day.Use();
        var measured = await day.Measure(84);
        var two = await day.Use();

        // √(48² − 30²) − √(47² − 30²) = 37.470 − 36.180 = 1.290 mm; by hand
        day.Review().One(FindingRule.ShiftJump, one.Serial, measured.Serial, two.Serial).Says(
            $"At 08:01:00 UTC the shift for a pick at nest 0,0 of bed moved by 1.290 mm from answer {one.Serial} (82.000 mm of measurement 3) to answer "
                + $"{two.Serial} (84.000 mm of measurement {measured.Serial}), and nothing says that the stock was changed.");
    }

    [Fact]
    public async Task A_jump_is_found_from_an_answer_before_the_window_too()
    {
        using var day = await Day.Begin();
        var one = await day.Use(82);
        day.Pass(TimeSpan.FromHours(3));
        var two = await day.Use(84);

        day.Review().One(FindingRule.ShiftJump, one.Serial, two.Serial);
        day.Review(with: r => r with { Answers = [.. r.Answers.Select(a => a with { Between = null })] })
            .One(FindingRule.ShiftJump, one.Serial, two.Serial).Says("older entries between the two answers were not examined");
    }

    [Fact]
    public async Task Nests_emptied_before_the_window_count_as_a_mention_of_other_stock()
    {
        using var day = await Day.Begin();
        await day.Use(82);
        await day.Emptied();
        day.Pass(TimeSpan.FromHours(3));
        await day.Use(84);

        day.Review().None(FindingRule.ShiftJump);
    }

    [Theory]
    [InlineData(null, "B", false)]
    [InlineData("A", "A", true)]
    [InlineData("A", null, true)]
    [InlineData(null, null, true)]
    public async Task A_newly_named_lot_counts_as_a_mention_of_other_stock_and_no_lot_does_not(string? before, string? lot, bool found)
    {
        using var day = await Day.Begin();
        await day.Measure(82, before);
        await day.Use();
        await day.Measure(84, lot);
        await day.Use();

        Assert.Equal(found, day.Review().Findings.Any(f => f.Rule == FindingRule.ShiftJump));
    }

    [Theory]
    [InlineData(0.001, true)]
    [InlineData(0.0013, false)]
    public async Task Only_a_change_larger_than_the_one_asked_about_is_found(double jump, bool found)
    {
        using var day = await Day.Begin();
        await day.Use(82);
        await day.Use(84);

        Assert.Equal(found, day.Review(new() { JumpMetres = jump }).Findings.Any(f => f.Rule == FindingRule.ShiftJump));
    }

    [Fact]
    public async Task Another_revision_or_purpose_is_not_a_jump()
    {
        using var day = await Day.Begin();
        await day.Use(82);
        await day.Use(90, purpose: Purpose.Place);
        await day.Adopt(2, """, "limits": { "shift": "50 mm" }""");
        await day.Use(86);

        day.Review().None(FindingRule.ShiftJump);
    }

    [Fact]
    public async Task A_jump_that_comes_with_a_slip_says_so()
    {
        using var day = await Day.Begin();
        await day.Use(100);
        await day.Use(50.3);

        var found = Assert.Single(day.Review().Findings, f => f.Rule == FindingRule.ShiftJump);
        found.Says("One diameter is about 2 times the other, as when a radius was taken for a diameter.");
    }
}

using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Envelopes;
using Stockseat.Seating.Quantities;
using Stockseat.Sheets.Drawings;
using Stockseat.Sheets.Svg;

namespace Stockseat.Sheets.Tests.Drawings;

public sealed class TightSpotTests
{
    public static TheoryData<string> Odd => Plans.Odd;

    [Theory]
    [MemberData(nameof(Odd))]
    public void The_smallest_gap_is_stated_with_its_two_bodies(string odd)
    {
        var drawn = Plans.Drawn(odd);
        var page = new Page(PlanDrawing.Draw(drawn, 290, 200));
        var gaps = Gaps.At(drawn.Plan, drawn.Worked.Metres).Where(g => g.Counts).ToList();

        if (gaps.Count == 0)
        {
            Assert.Contains(page.Texts, t => t.EndsWith(": no gap", StringComparison.Ordinal));
            return;
        }

        Assert.StartsWith(
            $"Tight spot at {drawn.Worked.Key}, {LengthUnit.Millimetre.Text(drawn.Worked.Metres)}", Page.In(page.Group("told"), "text").First().Value,
            StringComparison.Ordinal);
        var said = Page.In(page.Group("told"), "text").Last().Value;
        Assert.StartsWith($"{LengthUnit.Millimetre.Gap(gaps[0].Metres)}, ", said, StringComparison.Ordinal);
        Assert.EndsWith(Wording.Of(gaps[0], drawn.Plan.Obstacles), said, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Odd))]
    public void The_line_between_the_two_bodies_is_as_long_as_the_gap(string odd)
    {
        var drawn = Plans.Drawn(odd);
        var page = new Page(PlanDrawing.Draw(drawn));
        if (drawn.Worked.Tightest is not { Metres: > 0 } gap
            || (gap.Theirs.Column, gap.Theirs.Row) != (0, 0) && PlanShapes.Offset(drawn.Plan, gap.Theirs.Column, gap.Theirs.Row) == default)
        {
            return;
        }

        Assert.Equal(1000 * gap.Metres * page.Scale, Page.Length(Page.In(page.Group("tight"), "line").First()), 1e-3);
    }

    [Fact]
    public void Stock_between_columns_is_the_tight_spot_of_a_bed()
    {
        // 118.5 mm stock at a pitch of 120 mm, without a gripper.
        var drawn = DrawnPlan.Of(Plans.Pins with { Gripper = null }, [0.1185]);
        var page = new Page(PlanDrawing.Draw(drawn));

        Assert.Contains(page.Texts, t => t.StartsWith("1.5 mm, wanted 2 mm: stock to stock of nest ", StringComparison.Ordinal));
        Assert.Contains("1.5 mm", page.Texts);
    }

    [Fact]
    public void An_overlap_is_called_an_overlap()
    {
        var page = new Page(PlanDrawing.Draw(DrawnPlan.Of(Plans.Pins with { Gripper = null }, [0.1215])));

        Assert.Contains(page.Texts, t => t.StartsWith("overlap of 1.5 mm, wanted 2 mm: stock to stock of nest ", StringComparison.Ordinal));
    }

    [Fact]
    public void Bars_behind_each_other_are_stated_but_not_drawn()
    {
        var page = new Page(PlanDrawing.Draw(Plans.Drawn("lying bars")));

        Assert.Contains(page.Texts, t => t.StartsWith("10 mm, wanted 20 mm: stock to stock of nest 1,0", StringComparison.Ordinal));
        Assert.Contains(page.Texts, t => t.Contains("along w, not in this plan", StringComparison.Ordinal));
        Assert.DoesNotContain(page.All("g"), g => g.Attribute("class")!.Value == "tight");
    }
}

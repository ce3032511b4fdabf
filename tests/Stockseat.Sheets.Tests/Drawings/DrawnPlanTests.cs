using Stockseat.Sheets.Drawings;

namespace Stockseat.Sheets.Tests.Drawings;

public sealed class DrawnPlanTests
{
    [Fact]
    public void Without_a_diameter_the_ends_of_the_envelope_are_drawn()
    {
        var drawn = DrawnPlan.Of(Plans.Pins with { Gripper = null, StatedMetres = (0.06, 0.1) }, []);

        Assert.Equal([0.1, 0.06], drawn.Asked.Select(d => d.Metres));
        Assert.Equal(["A", "T", "B"], drawn.All.Select(d => d.Key));
    }

    [Fact]
    public void The_taught_diameter_is_drawn_once()
    {
        var drawn = DrawnPlan.Of(Plans.Pins, [0.08, 0.08, 0.07]);

        Assert.Equal([0.08, 0.07], drawn.All.Select(d => d.Metres));
        Assert.Equal(0.07, drawn.Worked.Metres);
    }

    [Fact]
    public void More_lines_than_can_be_told_apart_are_refused()
    {
        var six = Enumerable.Range(81, DrawnPlan.Most).Select(d => d / 1000.0).ToArray();

        Assert.Equal(DrawnPlan.Most, DrawnPlan.Of(Plans.Pins, six).Asked.Select(d => d.Dashes).Distinct().Count());
        Assert.Throws<ArgumentOutOfRangeException>(() => DrawnPlan.Of(Plans.Pins, [.. six, 0.0999]));
    }

    [Fact]
    public void The_jaws_are_drawn_around_the_largest_stock_that_has_a_seat()
    {
        Assert.Equal(0.07, DrawnPlan.Of(Plans.Pins, [0.01, 0.07]).Worked.Metres);
        Assert.Equal(0.08, DrawnPlan.Of(Plans.Pins, [0.01]).Worked.Metres);
    }

    [Fact]
    public void The_plan_of_a_revision_has_its_limits_and_its_gripper()
    {
        var revision = Plans.Demo("veerack-2/r0002.json");
        var (pick, place) = (revision.PlanFor(place: false), revision.PlanFor(place: true));

        Assert.Equal((0.000254, 0.000508), (pick.StandOffMetres, place.StandOffMetres));
        Assert.Equal((5, 2, 0.1143, 0.1524), (pick.Columns, pick.Rows, pick.ColumnStep.U, pick.RowStep.V));
        Assert.Equal(
            (2, 0.02, 0.01, Math.PI / 2, null, 0.1143), (
                pick.Gripper!.Jaws, pick.Gripper.JawWidthMetres, pick.Gripper.JawThicknessMetres, pick.Gripper.ClockingRadians, pick.Gripper.OpenByMetres,
                pick.Gripper.OpenToMetres));
        Assert.Equal((0.0381, 0.127), pick.Gripper.StrokeMetres);
        Assert.Equal((0.002032, 0.02286, 1.5, 6.5), (pick.GapMetres, pick.ShiftMetres, pick.Sensitivity, pick.PayloadKilograms));
        Assert.Equal(0.45, Plans.Demo("rollers-3/r0002.json").PlanFor(place: false).AlongWMetres);
    }
}

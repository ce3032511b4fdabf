using System.Xml.Linq;
using Stockseat.Seating.Frames;
using Stockseat.Sheets.Drawings;

namespace Stockseat.Sheets.Tests.Drawings;

/// <summary>Where the figure draws base x, y, z, for frames whose answer is plain from their axes.</summary>
public sealed class BaseAxesTests
{
    [Fact]
    public void Without_a_frame_there_is_no_figure() => Assert.DoesNotContain(
        new Page(PlanDrawing.Draw(Plans.Drawn("no gripper"))).All("g"), g => g.Attribute("class")!.Value == "base");

    [Fact]
    public void A_plan_that_lies_as_base_does_has_x_to_the_right_y_up_and_z_towards_the_reader()
    {
        var figure = Figure(new(0, 1, 0), new(0, 0, 1));

        Assert.Equal([(1, 0), (0, 1)], Directions(figure));
        Assert.Equal(2, Page.In(figure, "circle").Count()); // a ring and its dot
        Assert.Equal(2, Page.In(figure, "line").Count());
        Assert.Equal(["x", "y", "z"], Names(figure));
    }

    [Fact]
    public void Seen_from_below_z_points_away_and_x_to_the_left()
    {
        var figure = Figure(new(0, 1, 0), new(0, 0, -1));

        Assert.Equal([(-1, 0), (0, 1)], Directions(figure));
        Assert.Single(Page.In(figure, "circle"));
        Assert.Equal(4, Page.In(figure, "line").Count()); // two arrows and a cross
    }

    /// <summary>Tilted by 45° about x: y and z both look up the plan, y away from the reader, z towards him.</summary>
    [Fact]
    public void Axes_that_look_the_same_way_are_drawn_beside_each_other_and_the_one_that_points_away_is_dashed()
    {
        var half = Math.Sqrt(0.5);
        var figure = Figure(new(0, half, half), new(0, -half, half));

        Assert.Equal([(1, 0), (0, 1), (0, 1)], Directions(figure));
        var lines = Page.In(figure, "line").ToArray();
        Assert.Equal([false, true, false], lines.Select(l => l.Attribute("stroke-dasharray") is not null));
        Assert.Equal(half, Page.Length(lines[1]) / Page.Length(lines[0]), 0.001);
        Assert.True(Math.Abs(Page.Of(lines[1], "x1") - Page.Of(lines[2], "x1")) > 1.5);
        Assert.Empty(Page.In(figure, "circle"));
    }

    [Theory]
    [InlineData(19, 2)]
    [InlineData(21, 0)]
    public void An_axis_within_20_deg_of_the_normal_has_no_arrow(double degrees, int circles)
    {
        var (sin, cos) = Math.SinCos(degrees * Math.PI / 180);
        Assert.Equal(circles, Page.In(Figure(new(0, cos, sin), new(0, -sin, cos)), "circle").Count());
    }

    /// <summary>Whatever the frame, the figure stays within 10 mm of its middle, and no two names are in one place.</summary>
    [Fact]
    public void The_figure_keeps_to_its_room()
    {
        for (var i = 0; i < 200; i++)
        {
            var (a, b, c) = (0.7 * i, 0.31 * i, 1.3 * i);
            var turned = Rotation.FromAxisAngle(new(Math.Cos(a), Math.Sin(a), Math.Sin(b)), c);
            var figure = Figure(turned.Apply(new(0, 1, 0)), turned.Apply(new(0, 0, 1)));
            var points = Page.In(figure, "line").Select(l => (Page.Of(l, "x2"), Page.Of(l, "y2")))
                .Concat(Page.In(figure, "text").Select(t => (Page.Of(t, "x"), Page.Of(t, "y") - 1))).ToArray();
            Assert.All(points, p => Assert.True(Math.Abs(p.Item1 - MiddleX) < 10 && Math.Abs(p.Item2 - MiddleY) < 10, $"{p} of figure {i}"));
            var names = Page.In(figure, "text").Select(t => (X: Page.Of(t, "x"), Y: Page.Of(t, "y"))).ToArray();
            Assert.Equal(3, names.Length);
            Assert.All(names, n => Assert.Single(names, m => Math.Abs(m.X - n.X) < 1.2 && Math.Abs(m.Y - n.Y) < 1.5));
        }
    }

    private const double MiddleX = 187 - 11;

    private const double MiddleY = 2 + 11;

    private static XElement Figure(Vector3 seatAxis, Vector3 normal)
    {
        Assert.True(PlanFrame.TryCreate(seatAxis, normal, out var frame));
        return new Page(PlanDrawing.Draw(Plans.Drawn("no gripper") with { Frame = frame })).Group("base");
    }

    /// <summary>The directions of the arrows by their heads, as u and v, in tenths.</summary>
    private static IEnumerable<(double U, double V)> Directions(XElement figure) => Page.In(figure, "polygon").Select(head =>
    {
        var (tip, left, right) = (Page.Points(head)[0], Page.Points(head)[1], Page.Points(head)[2]);
        var (x, y) = (tip.X - ((left.X + right.X) / 2), ((left.Y + right.Y) / 2) - tip.Y);
        var length = Math.Sqrt((x * x) + (y * y));
        return (Math.Round(x / length, 1) + 0.0, Math.Round(y / length, 1) + 0.0);
    });

    private static IEnumerable<string> Names(XElement figure) => Page.In(figure, "text").Select(t => t.Value);
}

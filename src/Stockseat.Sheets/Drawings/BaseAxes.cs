using Stockseat.Seating.Frames;
using Stockseat.Sheets.Svg;

namespace Stockseat.Sheets.Drawings;

/// <summary>A small figure: where base x, y, z point, seen in the plan with u to the right, v up and w towards the reader.</summary>
internal static class BaseAxes
{
    /// <summary>What the signs of the figure mean.</summary>
    public const string Meaning = "Base axes x, y, z: a dot points towards you, a cross away, dashed leans away.";

    /// <summary>How far the figure reaches from its middle, each way, in millimetres.</summary>
    public const double Reach = 10.5;

    private const double Length = 6.5;

    private const double Ring = 1.6;

    private const double Small = 3;

    /// <summary>An arrow shorter than this share of its axis would have no visible direction: the axis is within 20° of the normal.</summary>
    private const double Shortest = 0.342;

    /// <summary>An axis that leans into the paper by less than this share, 5°, is drawn as if it lay in the plan.</summary>
    private const double Flat = 0.087;

    /// <summary>Arrows nearer to each other than this, 30°, are drawn side by side.</summary>
    private const double SameDirection = 0.866;

    private const double Beside = 1.8;

    private readonly record struct Axis(string Name, double U, double V, double W)
    {
        public double InPlane => Math.Sqrt((U * U) + (V * V));
    }

    /// <summary>Draws the figure around its middle.</summary>
    public static void Draw(SvgWriter svg, in PlanFrame frame, Point centre)
    {
        var (u, v, w) = (frame.U, frame.V, frame.W);
        Axis[] axes = [new("x", u.X, v.X, w.X), new("y", u.Y, v.Y, w.Y), new("z", u.Z, v.Z, w.Z)];
        var arrows = axes.Where(a => a.InPlane >= Shortest).ToList();
        var rings = axes.Where(a => a.InPlane < Shortest).ToList();
        for (var i = 0; i < arrows.Count; i++)
        {
            var beside = arrows.Take(i).Where(other => Same(other, arrows[i])).Select(other => IsLeftOf(other, arrows[i]) ? -Beside : Beside).FirstOrDefault();
            Arrow(svg, arrows[i], centre, rings.Count > 0 ? Ring : 0, beside);
        }

        foreach (var axis in rings)
        {
            Into(svg, axis.W > 0, centre);
            var (x, y) = (-arrows.Sum(a => a.U / a.InPlane), arrows.Sum(a => a.V / a.InPlane));
            var length = Math.Max(Math.Sqrt((x * x) + (y * y)), 1e-3);
            Label(svg, axis.Name, new(centre.X + (x / length * (Ring + 2.2)), centre.Y + (y / length * (Ring + 2.2))));
        }
    }

    private static bool Same(in Axis a, in Axis b) => (a.U * b.U) + (a.V * b.V) > SameDirection * a.InPlane * b.InPlane;

    private static bool IsLeftOf(in Axis other, in Axis axis) => (other.U * axis.V) - (other.V * axis.U) > 0;

    private static void Arrow(SvgWriter svg, in Axis axis, Point centre, double from, double beside)
    {
        var (x, y) = (axis.U / axis.InPlane, -axis.V / axis.InPlane);
        Point At(double along) => new(centre.X + (along * x) - (beside * y), centre.Y + (along * y) + (beside * x));
        var tip = At(Length * axis.InPlane);
        svg.Line(At(from), tip, new(0.5, axis.W < -Flat ? "1 0.7" : ""));
        svg.Head(tip, At(0), 2);
        Label(svg, axis.Name, At((Length * axis.InPlane) + 2.2));
    }

    private static void Into(SvgWriter svg, bool towards, Point centre)
    {
        svg.Circle(centre, Ring, new(0.4));
        if (towards)
        {
            svg.Circle(centre, 0.5, new(0.1, Fill: "#000"));
            return;
        }

        const double Arm = 0.7 * Ring;
        svg.Line(new(centre.X - Arm, centre.Y - Arm), new(centre.X + Arm, centre.Y + Arm), new(0.4));
        svg.Line(new(centre.X - Arm, centre.Y + Arm), new(centre.X + Arm, centre.Y - Arm), new(0.4));
    }

    private static void Label(SvgWriter svg, string name, Point at) => svg.Text(new(at.X, at.Y + 1), name, Small, "middle", bold: true);
}

using Stockseat.Seating.Quantities;
using Stockseat.Sheets.Svg;

namespace Stockseat.Sheets.Drawings;

/// <summary>The plot of a gap diagram: axes with round ticks, the curve, marks.</summary>
internal sealed class DiagramPlot(SvgWriter svg, GapCurve curve, LengthUnit unit, Box area)
{
    private const double Small = 3;

    /// <summary>The width of two letters side by side, in millimetres.</summary>
    private const double LetterRoom = 4.5;

    public Box Area => area;

    public double X(double diameterMetres) => area.X + ((diameterMetres - curve.From) / (curve.To - curve.From) * area.Width);

    public double Y(double gapMetres) => area.Bottom - ((gapMetres - curve.Span.Low) / (curve.Span.High - curve.Span.Low) * area.Height);

    public void Axes()
    {
        foreach (var d in Ticks(unit.Of(curve.From), unit.Of(curve.To), 7))
        {
            var x = X(unit.Metres(d));
            svg.Line(new(x, area.Bottom), new(x, area.Bottom + 1.5), new(0.3));
            svg.Text(new(x, area.Bottom + 5), Rounded.Short(d, unit.Decimals), Small, "middle");
        }

        foreach (var g in Ticks(unit.Of(curve.Span.Low), unit.Of(curve.Span.High), 3))
        {
            var y = Y(unit.Metres(g));
            svg.Line(new(area.X - 1.5, y), new(area.X, y), new(0.3));
            svg.Text(new(area.X - 2, y + 1), Rounded.Short(g, unit.Decimals), Small, "end");
            svg.Line(new(area.X, y), new(area.Right, y), g == 0 ? new(0.35) : new(0.1));
        }

        svg.Text(new(area.X + (area.Width / 2), area.Bottom + 9.2), $"diameter in {unit.Name}", Small, "middle");
        svg.Text(new(area.X - 15, area.Bottom + 9.2), $"upward: smallest gap in {unit.Name}", Small);
    }

    public void Curve()
    {
        var run = new List<Point>();
        void End()
        {
            if (run.Count > 1)
            {
                svg.Polyline(run, new(0.8));
            }

            run.Clear();
        }

        (double D, double G)? before = null;
        foreach (var (diameter, gap) in curve.Points)
        {
            if (gap is { } g && before is { } b && area.Clip(new(X(b.D), Y(b.G)), new(X(diameter), Y(g))) is var (from, to))
            {
                if (run.Count == 0 || run[^1] != from)
                {
                    End();
                    run.Add(from);
                }

                run.Add(to);
            }
            else
            {
                End();
            }

            before = gap is { } known ? (diameter, known) : null;
        }

        End();
    }

    /// <summary>An end of the envelope: its line, its diameter, and hatching beyond it.</summary>
    public void End(double diameterMetres, bool least)
    {
        var x = X(diameterMetres);
        Hatch(least ? new(area.X, area.Y, x - area.X, area.Height) : new(x, area.Y, area.Right - x, area.Height));
        svg.Line(new(x, area.Y), new(x, area.Bottom), new(0.8));
        svg.Text(new(x + (least ? 1.5 : -1.5), area.Y + 5), unit.Text(diameterMetres), 3.4, least ? "start" : "end", bold: true, halo: true);
    }

    public void Hatch(Box box)
    {
        for (var x = box.X - box.Height + 2; x < box.Right; x += 3)
        {
            if (box.Clip(new(x, box.Bottom), new(x + box.Height, box.Y)) is var (from, to))
            {
                svg.Line(from, to, new(0.15));
            }
        }
    }

    /// <summary>The letters of the diameters above the plot, spread so that none overlap, each with a line down to the curve.</summary>
    public void Marks(DrawnPlan drawn)
    {
        var at = double.NegativeInfinity;
        foreach (var diameter in drawn.All.OrderBy(d => d.Metres))
        {
            var x = X(diameter.Metres);
            at = Math.Max(x, at + LetterRoom);
            svg.Text(new(at, area.Y - 1.5), diameter.Key, 3.6, "middle", bold: true, halo: true);
            svg.Line(new(at, area.Y - 1), new(x, area.Y), new(0.25));
            svg.Line(new(x, area.Y), new(x, area.Bottom), new(0.25, "0.8 0.8"));
            if (diameter.Tightest is { } gap && new Point(x, Y(gap.Metres)) is var dot && area.Has(dot))
            {
                svg.Circle(dot, 1.1, new(0.4, Fill: "#000"));
            }
        }
    }

    /// <summary>Round numbers in a range: at least this many, at most about twice as many.</summary>
    internal static IEnumerable<double> Ticks(double from, double to, int least)
    {
        var step = Scale.RoundBelow((to - from) / least);
        for (var i = Math.Ceiling(from / step); i * step <= to; i++)
        {
            yield return i * step;
        }
    }
}

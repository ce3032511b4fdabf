using Stockseat.Seating.Quantities;
using Stockseat.Sheets.Svg;

namespace Stockseat.Sheets.Drawings;

/// <summary>The plot of one run chart: the values evenly spaced in the order of time, upward in the unit of the display.</summary>
internal sealed class RunPlot
{
    private const double Small = 3;

    private const double TitleSize = 3.8;

    /// <summary>The distance between labels at the right, in millimetres: the height of two letters.</summary>
    private const double LabelRoom = 3.7;

    /// <summary>A band or limit this many times further out than all values and control limits is named, not drawn: it would flatten the curve.</summary>
    private const double TooFar = 10;

    private readonly SvgWriter _svg;
    private readonly RunChart _chart;
    private readonly Box _area;
    private readonly double _low;
    private readonly double _high;
    private readonly LengthUnit _unit;

    public RunPlot(SvgWriter svg, RunChart chart, Box area, (double Low, double High) span, LengthUnit unit)
    {
        (_svg, _chart, _area) = (svg, chart, area);
        ((_low, _high), _unit) = (span, unit);
    }

    /// <summary>The range of the charts on one page, in metres, with some room: one scale for all, so that they can be compared.</summary>
    public static (double Low, double High) Span(IReadOnlyList<RunChart> charts)
    {
        var near = charts.SelectMany(c => c.Points).Select(p => p.Metres)
            .Concat(charts.SelectMany(c => c.Sections).SelectMany(s => s.Control is { } c ? new[] { c.Lower, c.Upper } : [])).Append(0).ToList();
        var reach = TooFar * near.Max(Math.Abs);
        var far = charts.SelectMany(c => c.Points).SelectMany(p => new[] { p.Expected, p.Limit }).OfType<double>().Where(d => d <= reach)
            .SelectMany(d => new[] { -d, d });
        var (low, high) = (near.Concat(far).Min(), near.Concat(far).Max());
        var pad = Math.Max(0.08 * (high - low), 1e-6);
        return (low - pad, high + pad);
    }

    /// <summary>The left edge of the plot.</summary>
    public double Left => _area.X;

    public double X(int index) => _area.X + ((index + 0.5) / _chart.Points.Count * _area.Width);

    public void Draw()
    {
        _svg.Text(new(_area.X, _area.Y - 2), Title, TitleSize, bold: true);
        _svg.Window(_area, () => _svg.Group("expected", Expected));
        _svg.Group("axis", Axis);
        _svg.Window(_area, () =>
        {
            _svg.Group("limit", () => Bands(p => p.Limit, (left, right, limit) => Both(left, right, limit, RunMarks.Limit)));
            _svg.Group("control", Control);
            _svg.Group("run", Run);
        });
        _svg.Group("values", Values);
        _svg.Group("adoptions", Adoptions);
        _svg.Group("labels", Labels);
        _svg.Rectangle(_area, new(0.4));
    }

    private string Title => $"{_chart.Name}, in {_unit.Name}";

    private double Y(double metres) => _area.Bottom - ((metres - _low) / (_high - _low) * _area.Height);

    private double LeftOf(int index) => _area.X + ((double)index / _chart.Points.Count * _area.Width);

    private void Axis()
    {
        foreach (var tick in DiagramPlot.Ticks(_unit.Of(_low), _unit.Of(_high), 4))
        {
            var y = Y(_unit.Metres(tick));
            _svg.Line(new(_area.X - 1.5, y), new(_area.X, y), new(0.3));
            _svg.Text(new(_area.X - 2, y + 1), Rounded.Signed(Rounded.Short(tick, _unit.Decimals + 1)), Small, "end");
            _svg.Line(new(_area.X, y), new(_area.Right, y), Math.Abs(tick) < 1e-9 ? new(0.3) : new(0.1, Colour: "#888"));
        }
    }

    private void Expected() => Bands(p => p.Expected, (left, right, expected) =>
        _svg.Rectangle(new(left, Y(expected), right - left, Y(-expected) - Y(expected)), RunMarks.Expected));

    private void Control()
    {
        foreach (var section in _chart.Sections)
        {
            if (section.Control is { } c)
            {
                var (left, right) = (LeftOf(section.First), LeftOf(section.First + section.Count));
                _svg.Line(new(left, Y(c.Centre)), new(right, Y(c.Centre)), RunMarks.Centre);
                _svg.Line(new(left, Y(c.Lower)), new(right, Y(c.Lower)), RunMarks.Control);
                _svg.Line(new(left, Y(c.Upper)), new(right, Y(c.Upper)), RunMarks.Control);
            }
        }
    }

    private void Run()
    {
        foreach (var section in _chart.Sections.Where(s => s.Count > 1))
        {
            _svg.Polyline(Enumerable.Range(section.First, section.Count).Select(At), new(0.2));
        }
    }

    private void Values()
    {
        var radius = Math.Clamp(0.42 * _area.Width / _chart.Points.Count, 0.45, 1.2);
        for (var i = 0; i < _chart.Points.Count; i++)
        {
            RunMarks.Value(_svg, At(i), radius, _chart.Points[i].Passed, _chart.Points[i].Beyond);
        }
    }

    private void Adoptions()
    {
        var free = _area.X + SvgWriter.WidthOf(Title, TitleSize, bold: true) + 4;
        foreach (var section in _chart.Sections)
        {
            var x = LeftOf(section.First);
            if (section.First > 0)
            {
                _svg.Line(new(x, _area.Y - 2.5), new(x, _area.Bottom), RunMarks.Adoption);
            }

            // Above the plot, where no line crosses it; the first one comes after the title.
            var (name, at) = ($"revision {Rounded.Short(section.Revision, 0)}", section.First == 0 ? free : x + 1);
            var end = at + 3 + SvgWriter.WidthOf(name, Small);
            if (at >= free && (section.First > 0 || _chart.Sections.Count == 1 || end < LeftOf(section.Count)))
            {
                _svg.Text(new(at, _area.Y - 2), name, Small);
                free = end;
            }
        }
    }

    /// <summary>The numbers of the last revision beside the plot, so that none covers another.</summary>
    private void Labels()
    {
        var wanted = new List<(double Metres, string Text)>();
        if (_chart.Sections[^1].Control is { } c)
        {
            wanted.AddRange(
                [
                    (c.Upper, $"upper {_unit.SignedShort(c.Upper)}"), (c.Centre, $"mean {_unit.SignedShort(c.Centre)}"),
                    (c.Lower, $"lower {_unit.SignedShort(c.Lower)}"),
                ]);
        }

        if (_chart.Points[^1].Expected is { } u)
        {
            wanted.Add((u, $"U ±{_unit.Short(u)}{Beyond(u)}"));
        }

        if (_chart.Points[^1].Limit is { } limit)
        {
            wanted.Add((limit, $"limit ±{_unit.Short(limit)}{Beyond(limit)}"));
        }

        var labels = wanted.Select(w => (Wanted: Math.Clamp(Y(w.Metres), _area.Y, _area.Bottom), w.Text, Drawn: w.Metres <= _high)).OrderBy(l => l.Wanted)
            .ToList();
        var y = new double[labels.Count];
        for (var i = 0; i < y.Length; i++)
        {
            y[i] = Math.Max(labels[i].Wanted, i == 0 ? _area.Y + 1 : y[i - 1] + LabelRoom);
        }

        for (var i = y.Length - 1; i >= 0; i--)
        {
            y[i] = Math.Min(y[i], i == y.Length - 1 ? _area.Bottom : y[i + 1] - LabelRoom);
            if (labels[i].Drawn)
            {
                _svg.Line(new(_area.Right, labels[i].Wanted), new(_area.Right + 2.5, y[i]), new(0.15));
            }

            _svg.Text(new(_area.Right + 3, y[i] + 1), labels[i].Text, Small);
        }
    }

    private string Beyond(double metres) => metres > _high ? ", further out" : "";

    private Point At(int index) => new(X(index), Y(_chart.Points[index].Metres));

    private void Both(double left, double right, double metres, SvgWriter.Pen pen)
    {
        _svg.Line(new(left, Y(metres)), new(right, Y(metres)), pen);
        _svg.Line(new(left, Y(-metres)), new(right, Y(-metres)), pen);
    }

    /// <summary>Neighbours with the same number are drawn in one piece.</summary>
    private void Bands(Func<RunPoint, double?> of, Action<double, double, double> draw)
    {
        for (int first = 0, end; first < _chart.Points.Count; first = end)
        {
            var value = of(_chart.Points[first]);
            end = first + 1;
            while (end < _chart.Points.Count && of(_chart.Points[end]) == value)
            {
                end++;
            }

            if (value is { } metres)
            {
                draw(LeftOf(first), LeftOf(end), metres);
            }
        }
    }
}

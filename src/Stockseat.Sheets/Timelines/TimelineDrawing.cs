using System.Globalization;
using Stockseat.Sheets.Svg;

namespace Stockseat.Sheets.Timelines;

/// <summary>
/// A timeline: time runs to the right; there is a lane for each subject, and in it a row for each shape of mark, so that the names of the rows are the key.
/// </summary>
public sealed class TimelineDrawing
{
    internal const double NumberSize = 2.5;

    /// <summary>The lines of labels above the lanes.</summary>
    private const int LabelLines = 5;

    private const double LabelLine = 4.2;

    /// <summary>How many labels are tried.</summary>
    private const int MostLabels = 24;

    private const double LabelSize = 2.8;

    /// <summary>The instant's own label, on top.</summary>
    private const double InstantHeight = 6;

    private const double RowHeight = 6.4;

    private const double NamesWidth = 42;

    private const double Axis = 11;

    private readonly SvgWriter _svg;
    private readonly Timeline _timeline;
    private readonly TimeScale _scale;
    private readonly double _right;
    private readonly double _top;
    private readonly List<List<MarkCluster>> _clusters;
    private readonly IReadOnlyList<LabelPlaces.Placed> _labels;

    private TimelineDrawing(SvgWriter svg, Timeline timeline, double width)
    {
        (_svg, _timeline, _right) = (svg, timeline, width - 1);
        _scale = new(timeline, NamesWidth + 0.5, _right);
        _clusters = [.. timeline.Rows.Select((_, i) => MarkCluster.Of(timeline.Marks.Where(m => m.Row == i), _scale, timeline.Instant).ToList())];
        _labels = Labels().All;
        _top = InstantHeight + (_labels.Count == 0 ? 0 : LabelLine * (1 + _labels.Max(l => l.Line))) + 2.4;
    }

    private double Bottom => _top + (_timeline.Rows.Count * RowHeight);

    /// <summary>The drawing, as SVG for the inside of a page.</summary>
    /// <param name="timeline">What it shows.</param>
    /// <param name="part">Its title and description on the page.</param>
    /// <param name="widthMillimetres">Its width, 120 or more.</param>
    public static string Draw(Timeline timeline, PagePart part, double widthMillimetres = 186)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(widthMillimetres, 120);
        var svg = new SvgWriter();
        var drawing = new TimelineDrawing(svg, timeline, widthMillimetres);
        drawing.Draw();
        return svg.Inside(part, widthMillimetres, drawing.Bottom + Axis);
    }

    private void Draw()
    {
        _svg.Group("lanes", Lanes);
        _svg.Group("times", Times);
        _svg.Group("breaks", Breaks);
        _svg.Group("instant", Instant);
        _svg.Group("labels", () =>
        {
            foreach (var label in _labels)
            {
                var y = InstantHeight + (LabelLine * label.Line);
                _svg.Line(new(label.X, y), new(label.X, label.Label.Row < 0 ? _top : RowMiddle(label.Label.Row)), new(0.2));
                _svg.Text(new(label.From, y + 2.8), label.Label.Text, LabelSize, bold: true);
            }
        });
        _svg.Group("marks", () =>
        {
            for (var row = 0; row < _clusters.Count; row++)
            {
                _clusters[row].ForEach(c => Mark(c, row));
            }
        });
    }

    private void Lanes()
    {
        for (var i = 0; i < _timeline.Rows.Count; i++)
        {
            var (row, y) = (_timeline.Rows[i], RowMiddle(i));
            var begins = i == 0 || _timeline.Rows[i - 1].Lane != row.Lane;
            _svg.Line(new(begins ? 0 : NamesWidth, y - (RowHeight / 2)), new(_right, y - (RowHeight / 2)), begins ? new(0.35) : new(0.1, Colour: "#888"));
            if (row.Shape is { } shape)
            {
                TimelineMarks.Draw(_svg, shape, new(2.5, y));
            }

            var room = NamesWidth - 6;
            var size = Math.Clamp(2.9 * room / SvgWriter.WidthOf(row.Name, 2.9), 2.4, 2.9);
            _svg.Text(new(5.5, y + 1), SvgWriter.Fitted(row.Name, size, room), size);
        }

        _svg.Line(new(0, Bottom), new(_right, Bottom), new(0.35));
        _svg.Line(new(NamesWidth, _top), new(NamesWidth, Bottom), new(0.2));
    }

    private void Times()
    {
        for (var part = 0; part < _timeline.Parts.Count; part++)
        {
            var (left, right) = _scale.Of(part);
            foreach (var (x, text) in _scale.Times(part, 17))
            {
                _svg.Line(new(x, _top), new(x, Bottom), new(0.1, "0.4 1.2", Colour: "#666"));
                _svg.Line(new(x, Bottom), new(x, Bottom + 1.5), new(0.3));

                // Kept inside its own part: beyond a break is the time of another part, and beyond the last part the paper ends.
                var half = SvgWriter.WidthOf(text, LabelSize) / 2;
                var room = TimeScale.BreakWidth / 2;
                _svg.Text(
                    new(
                        Math.Clamp(x, Math.Min(left - room + half, x), Math.Max(right + (part == _timeline.Parts.Count - 1 ? 0 : room) - half, left)),
                        Bottom + 4.6), text, LabelSize, "middle");
            }
        }

        var offset = _timeline.Instant.Offset;
        _svg.Text(
            new(
                NamesWidth + 3, Bottom + 9), string.Create(CultureInfo.InvariantCulture,
                $"time of day, UTC{(offset < TimeSpan.Zero ? "\u2212" : "+")}{offset:hh\\:mm}; a number below a mark: that many at this place"), LabelSize);
    }

    private void Breaks()
    {
        for (var part = 1; part < _timeline.Parts.Count; part++)
        {
            var x = _scale.Of(part).Left - (TimeScale.BreakWidth / 2);
            foreach (var side in new[] { -0.7, 0.7 })
            {
                var points = new List<Point>();
                for (var y = _top; y < Bottom + 1; y += 2)
                {
                    points.Add(new(x + side + (points.Count % 2 == 0 ? -0.6 : 0.6), y));
                }

                _svg.Polyline(points, new(0.4));
            }
        }
    }

    private void Instant()
    {
        for (var part = 0; part < _timeline.Parts.Count; part++)
        {
            if (_timeline.Parts[part].HasInstant)
            {
                var x = _scale.X(part, _timeline.Instant);
                _svg.Line(new(x, 4.2), new(x, Bottom + 1.5), new(0.7));
                _svg.Head(new(x, _top), new(x, 0), 2.4);
                var text = $"the instant {_timeline.Instant.ToString("HH:mm:ss", CultureInfo.InvariantCulture)}";
                var half = SvgWriter.WidthOf(text, 3.2, bold: true) / 2;
                _svg.Text(new(Math.Clamp(x, half, _right - half), 3.3), text, 3.2, "middle", bold: true);
            }
        }
    }

    /// <summary>The labels, the most wanted first; those without room are in the tables.</summary>
    private LabelPlaces Labels()
    {
        var parts = Enumerable.Range(0, _timeline.Parts.Count).ToList();
        var places = new LabelPlaces(
            NamesWidth + 1, _right, LabelLines, [.. parts.Where(p => _timeline.Parts[p].HasInstant).Select(p => _scale.X(p, _timeline.Instant))]);
        foreach (var part in parts.Skip(1))
        {
            places.TryAdd(Label(_scale.Of(part).Left - (TimeScale.BreakWidth / 2), _timeline.Parts[part].Break, -1));
        }

        var wanted = _clusters.SelectMany((row, i) => row.SelectMany(c => c.Marks.Where(m => m.Label.Length > 0).Select(m => (Mark: m, c.X, Row: i))));
        foreach (var (mark, x, row) in wanted.OrderByDescending(w => w.Mark.Weight).Take(MostLabels))
        {
            _ = places.TryAdd(Label(x, mark.Label, row)) || (mark.Short.Length > 0 && places.TryAdd(Label(x, mark.Short, row)));
        }

        return places;

        static LabelPlaces.Wanted Label(double x, string text, int row) => new(x, text, SvgWriter.WidthOf(text, LabelSize, bold: true), row);
    }

    private void Mark(MarkCluster cluster, int row)
    {
        var at = new Point(cluster.X, RowMiddle(row) - (cluster.Marks.Count > 1 ? 1.1 : 0));
        if (cluster.IsRinged)
        {
            _svg.Circle(at, TimelineMarks.Half + 0.95, new(0.3, Fill: "#fff"));
        }

        TimelineMarks.Draw(_svg, _timeline.Rows[row].Shape ?? MarkShape.Question, at);
        if (cluster.Marks.Count > 1)
        {
            _svg.Text(new(at.X, RowMiddle(row) + 2.6), cluster.Marks.Count.ToString(CultureInfo.InvariantCulture), NumberSize, "middle");
        }
    }

    private double RowMiddle(int row) => _top + ((row + 0.5) * RowHeight);
}

using System.Globalization;

namespace Stockseat.Fixtures.Drawing.Timelines;

/// <summary>A timeline: time runs to the right, a lane for each of a few subjects, a row in it for each shape of marks; so the rows' names are the key.</summary>
public sealed class TimelineDrawing
{
    internal const double NumberSize = 2.5;

    /// <summary>The lines of labels above the lanes.</summary>
    private const int LabelLines = 5;

    private const double LabelLine = 4.2;

    private const double LabelSize = 2.8;

    /// <summary>The instant's own label, on top.</summary>
    private const double InstantHeight = 6;

    private const double RowHeight = 6.4;

    private const double NamesWidth = 42;

    private const double Axis = 11;

    private readonly Svg _svg;
    private readonly Timeline _timeline;
    private readonly TimeScale _scale;
    private readonly double _right;
    private readonly double _top;

    private TimelineDrawing(Svg svg, Timeline timeline, double width)
    {
        (_svg, _timeline, _right, _top) = (svg, timeline, width - 1, InstantHeight + (timeline.Marks.Any(m => m.Label.Length > 0) ? LabelLines * LabelLine : 0) + 1);
        _scale = new(timeline, NamesWidth + 3, _right - 2);
    }

    private double Bottom => _top + (_timeline.Rows.Count * RowHeight);

    /// <summary>The drawing, as SVG inside of a page.</summary>
    /// <param name="timeline">What it shows.</param>
    /// <param name="part">What the page says of it.</param>
    /// <param name="widthMillimetres">Its width, 120 or more.</param>
    public static string Draw(Timeline timeline, PagePart part, double widthMillimetres = 186)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(widthMillimetres, 120);
        var labels = timeline.Marks.Any(m => m.Label.Length > 0) ? LabelLines * LabelLine : 0;
        return Svg.Inside(part, widthMillimetres, InstantHeight + labels + 1 + (timeline.Rows.Count * RowHeight) + Axis, svg => new TimelineDrawing(svg, timeline, widthMillimetres).Draw());
    }

    private void Draw()
    {
        _svg.Group("lanes", Lanes);
        _svg.Group("times", Times);
        _svg.Group("breaks", Breaks);
        _svg.Group("instant", Instant);
        var clusters = _timeline.Rows.Select((_, i) => MarkCluster.Of(_timeline.Marks.Where(m => m.Row == i), _scale, _timeline.Instant).ToList()).ToList();
        _svg.Group("labels", () => Labels(clusters));
        _svg.Group("marks", () =>
        {
            for (var row = 0; row < clusters.Count; row++)
            {
                clusters[row].ForEach(c => Mark(c, row));
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
            var size = Math.Clamp(2.9 * room / Svg.WidthOf(row.Name, 2.9), 2.4, 2.9);
            _svg.Text(new(5.5, y + 1), Svg.Fitted(row.Name, size, room), size);
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

                // Kept inside its own part: beside a break stands another part's time.
                var half = Svg.WidthOf(text, LabelSize) / 2;
                var room = TimeScale.BreakWidth / 2;
                _svg.Text(new(Math.Clamp(x, Math.Min(left - room + half, x), Math.Max(right + room - half, left)), Bottom + 4.6), text, LabelSize, "middle");
            }
        }

        var offset = _timeline.Instant.Offset;
        _svg.Text(new(NamesWidth + 3, Bottom + 9), string.Create(CultureInfo.InvariantCulture, $"time of day, UTC{(offset < TimeSpan.Zero ? "\u2212" : "+")}{offset:hh\\:mm}; a number below a mark: so many of them there"), LabelSize);
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
                var half = Svg.WidthOf(text, 3.2, bold: true) / 2;
                _svg.Text(new(Math.Clamp(x, half, _right - half), 3.3), text, 3.2, "middle", bold: true);
            }
        }
    }

    /// <summary>The labels that are wanted most; where there is no room for one, the tables tell it.</summary>
    private void Labels(List<List<MarkCluster>> clusters)
    {
        var places = new LabelPlaces(NamesWidth + 1, _right, LabelLines);
        for (var part = 0; part < _timeline.Parts.Count; part++)
        {
            // The instant's line is in nobody's way, and goes through no label.
            if (_timeline.Parts[part].HasInstant)
            {
                places.TryAdd(_scale.X(part, _timeline.Instant), "", 0);
            }

            if (part > 0)
            {
                var text = _timeline.Parts[part].Break;
                places.TryAdd(_scale.Of(part).Left - (TimeScale.BreakWidth / 2), text, Svg.WidthOf(text, LabelSize, bold: true));
            }
        }

        var ends = places.All.ToDictionary(p => p, _ => _top);
        var wanted = clusters.SelectMany((row, i) => row.SelectMany(c => c.Marks.Where(m => m.Label.Length > 0).Select(m => (Mark: m, c.X, Row: i)))).OrderByDescending(w => w.Mark.Weight);
        foreach (var (mark, x, row) in wanted)
        {
            if (places.TryAdd(x, mark.Label, Svg.WidthOf(mark.Label, LabelSize, bold: true)))
            {
                ends[places.All[^1]] = RowMiddle(row);
            }
        }

        foreach (var place in places.All.Where(p => p.Text.Length > 0))
        {
            var y = InstantHeight + (LabelLine * place.Line);
            _svg.Line(new(place.X, y), new(place.X, ends[place]), new(0.2));
            _svg.Text(new(place.From, y + 2.8), place.Text, LabelSize, bold: true);
        }
    }

    private void Mark(MarkCluster cluster, int row)
    {
        var at = new Point(cluster.X, RowMiddle(row) - (cluster.Marks.Count > 1 ? 0.9 : 0));
        if (cluster.IsRinged)
        {
            _svg.Circle(at, TimelineMarks.Half + 0.95, new(0.3, Fill: "#fff"));
        }

        TimelineMarks.Draw(_svg, _timeline.Rows[row].Shape ?? MarkShape.Question, at);
        if (cluster.Marks.Count > 1)
        {
            _svg.Text(new(at.X, RowMiddle(row) + 3), cluster.Marks.Count.ToString(CultureInfo.InvariantCulture), NumberSize, "middle");
        }
    }

    private double RowMiddle(int row) => _top + ((row + 0.5) * RowHeight);
}

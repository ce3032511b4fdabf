using Stockseat.Sheets.Svg;

namespace Stockseat.Sheets.Timelines;

/// <summary>Marks of one row that are too close together to draw each: one mark stands for all, with their number.</summary>
/// <param name="X">Where it is drawn, in millimetres.</param>
/// <param name="Marks">The marks, in order; one or more.</param>
internal sealed record MarkCluster(double X, IReadOnlyList<TimelineMark> Marks)
{
    /// <summary>The widest stretch that one mark stands for, in millimetres.</summary>
    private const double Reach = 5;

    public bool IsRinged => Marks.Any(m => m.IsRinged);

    /// <summary>The clusters of a row; no cluster has marks from before and after the instant, or from two parts.</summary>
    public static IEnumerable<MarkCluster> Of(IEnumerable<TimelineMark> marks, TimeScale scale, DateTimeOffset instant) => marks
        .GroupBy(m => (m.Part, IsAfter: IsAfter(m, instant)))
        .SelectMany(g => Apart(g.Key.IsAfter
            ? Gathered([.. g.OrderBy(m => m.At)], m => scale.X(m.Part, m.At))
            : Gathered([.. g.OrderByDescending(m => m.At)], m => -scale.X(m.Part, m.At)).Select(c => new MarkCluster(-c.X, [.. c.Marks.Reverse()])),
            g.Key.IsAfter ? 1 : -1, scale.Instant(g.Key.Part)));

    public static bool IsAfter(TimelineMark mark, DateTimeOffset instant) => mark.IsAfter ?? mark.At > instant;

    private static IEnumerable<MarkCluster> Gathered(List<TimelineMark> marks, Func<TimelineMark, double> x)
    {
        for (int first = 0, end; first < marks.Count; first = end)
        {
            end = first + 1;
            while (end < marks.Count && x(marks[end]) - x(marks[first]) < Reach)
            {
                end++;
            }

            yield return new((x(marks[first]) + x(marks[end - 1])) / 2, marks[first..end]);
        }
    }

    /// <summary>Moved away from the instant, so that its line and the numbers below have room.</summary>
    private static IEnumerable<MarkCluster> Apart(IEnumerable<MarkCluster> clusters, int way, double? instant)
    {
        // Beside the instant's line, not on it.
        var free = way * instant + 0.7;
        foreach (var cluster in clusters)
        {
            var half = Math.Max(TimelineMarks.Half + 0.2, cluster.Marks.Count > 1 ? cluster.NumberWidth / 2 : 0);
            var x = free is { } f ? way * Math.Max(way * cluster.X, f + half) : cluster.X;
            free = (way * x) + half;
            yield return cluster with { X = x };
        }
    }

    private double NumberWidth => SvgWriter.WidthOf($"{Marks.Count}", TimelineDrawing.NumberSize) + 0.6;
}

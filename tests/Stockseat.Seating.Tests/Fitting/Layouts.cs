using Stockseat.Seating.Fitting;
using Stockseat.Seating.Frames;

namespace Stockseat.Seating.Tests.Fitting;

/// <summary>Layouts of nests in the plan, in metres.</summary>
internal static class Layouts
{
    internal static readonly Vector3[] SixNests = [.. Enumerable.Range(0, 6).Select(i => new Vector3(0.15 * (i % 3), 0.2 * (i / 3), 0))];

    internal static readonly Vector3[] Row = [.. Enumerable.Range(0, 5).Select(i => new Vector3(0.12 * i, 0, 0))];

    internal static TouchedPoint[] Moved(Vector3[] plan, Pose motion) =>
        [.. plan.Select(p => new TouchedPoint(p, motion.PositionMetres + motion.Orientation.Apply(p)))];

    internal static TouchedPoint[] Scattered(TouchedPoint[] points, Random random, double sigma) =>
        [.. points.Select(p => p with { BaseMetres = p.BaseMetres + Any.Scatter(random, sigma) })];
}

using Stockseat.Seating.Envelopes;
using Stockseat.Seating.Frames;

namespace Stockseat.Sheets.Drawings;

/// <summary>Where two parts of a plan are nearest: for the dimension line only, the number comes from <see cref="Gaps"/>.</summary>
internal static class Nearest
{
    /// <summary>The point of each part that is nearest to the other; for parts that overlap, points near the overlap.</summary>
    public static (PlanVector Mine, PlanVector Theirs) Points(in Shape mine, in Shape theirs)
    {
        var best = (Mine: mine.From, Theirs: theirs.From, Distance: double.PositiveInfinity);
        foreach (var a in Edges(mine))
        {
            foreach (var b in Edges(theirs))
            {
                var (p, q) = Between(a.From, a.To, b.From, b.To);
                if ((q - p).Length < best.Distance)
                {
                    best = (p, q, (q - p).Length);
                }
            }
        }

        if (!(best.Distance > 1e-12))
        {
            return (best.Mine, best.Theirs);
        }

        var unit = 1 / best.Distance * (best.Theirs - best.Mine);
        return (best.Mine + (Radius(mine) * unit), best.Theirs - (Radius(theirs) * unit));
    }

    /// <summary>The corners of a rectangle, in order around it.</summary>
    public static PlanVector[] Corners(in Shape box)
    {
        var along = box.To - box.From;
        var half = box.HalfWidthMetres / Math.Max(along.Length, 1e-12) * along.Turned;
        return [box.From - half, box.To - half, box.To + half, box.From + half];
    }

    private static double Radius(in Shape shape) => shape.IsBox ? 0 : shape.HalfWidthMetres;

    private static (PlanVector From, PlanVector To)[] Edges(in Shape shape)
    {
        if (!shape.IsBox)
        {
            return [(shape.From, shape.To)];
        }

        var corners = Corners(shape);
        return [(corners[0], corners[1]), (corners[1], corners[2]), (corners[2], corners[3]), (corners[3], corners[0])];
    }

    private static (PlanVector A, PlanVector B) Between(PlanVector a0, PlanVector a1, PlanVector b0, PlanVector b1)
    {
        var cross = PlanVector.Cross(a1 - a0, b1 - b0);
        if (cross != 0)
        {
            var (s, t) = (PlanVector.Cross(b0 - a0, b1 - b0) / cross, PlanVector.Cross(b0 - a0, a1 - a0) / cross);
            if (s is >= 0 and <= 1 && t is >= 0 and <= 1)
            {
                var met = a0 + (s * (a1 - a0));
                return (met, met);
            }
        }

        (PlanVector A, PlanVector B)[] ends = [(a0, Foot(a0, b0, b1)), (a1, Foot(a1, b0, b1)), (Foot(b0, a0, a1), b0), (Foot(b1, a0, a1), b1)];
        return ends.MinBy(e => (e.B - e.A).Length);
    }

    private static PlanVector Foot(PlanVector p, PlanVector from, PlanVector to)
    {
        var along = to - from;
        var square = PlanVector.Dot(along, along);
        return square == 0 ? from : from + (Math.Clamp(PlanVector.Dot(p - from, along) / square, 0, 1) * along);
    }
}

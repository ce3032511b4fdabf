using Stockseat.Seating.Frames;
using Stockseat.Seating.Locators;

namespace Stockseat.Seating.Envelopes;

/// <summary>
/// The distance between two parts of a plan; negative when they overlap. Each part is a convex core (a point, a line or a rectangle) with a radius around it.
/// <para>When the cores overlap: minus the shortest movement that parts them, over the normals of the sides of both cores (separating axes). When they are
/// apart: the least distance from a corner of one core to a side of the other. So the gap is continuous, and moving a part by x never changes it by more than
/// x.</para>
/// </summary>
internal static class Distances
{
    /// <summary>To this depth behind a face everything is solid, when the distance to its side is taken; in metres.</summary>
    private const double SolidMetres = 2 * PlanShapes.FaceReachMetres;

    /// <summary>The gap between two parts, in metres.</summary>
    public static double Gap(in Shape a, in Shape b)
    {
        Span<PlanVector> first = stackalloc PlanVector[4];
        Span<PlanVector> second = stackalloc PlanVector[4];
        first = first[..Core(a, first)];
        second = second[..Core(b, second)];
        return Cores(first, second) - Radius(a) - Radius(b);
    }

    /// <summary>How far the deepest part of a shape is behind a face, within the extent of the face, in metres; 0 or less when no part is behind it.</summary>
    /// <param name="shape">A rectangle or a disc.</param>
    /// <param name="face">The face.</param>
    public static double Behind(in Shape shape, in Locator face)
    {
        var (from, to) = (Math.Max(face.FromMetres, -PlanShapes.FaceReachMetres), Math.Min(face.ToMetres, PlanShapes.FaceReachMetres));
        Span<PlanVector> corners = stackalloc PlanVector[4];
        corners = corners[..Core(shape, corners)];
        var deepest = double.NegativeInfinity;
        for (var i = 0; i < corners.Length; i++)
        {
            deepest = Math.Max(deepest, Behind(Local(face, corners[i]), Local(face, corners[(i + 1) % corners.Length]), from, to));
        }

        return shape.IsBox ? deepest : Round(Local(face, shape.From), Radius(shape), from, to);
    }

    /// <summary>
    /// The gap to everything behind a face, within the extent of the face, in metres: how far a part beside the face has to move before it is behind the face.
    /// </summary>
    public static double ToSolid(in Shape shape, in Shape face, PlanVector normal)
    {
        var middle = 0.5 * (face.From + face.To);
        return Gap(shape, Shape.Box(face.Party, middle, middle - (SolidMetres * normal), (face.To - face.From).Length));
    }

    /// <summary>From a point to a part, in metres; 0 or less inside.</summary>
    public static double FromPoint(PlanVector point, in Shape shape) => shape.IsBox
        ? Gap(Shape.Disc(default, point, 0), shape)
        : Point(point, shape.From, shape.To) - shape.HalfWidthMetres;

    private static double Radius(in Shape shape) => shape.IsBox ? 0 : shape.HalfWidthMetres;

    /// <summary>The corners of a core, counter-clockwise.</summary>
    private static int Core(in Shape shape, Span<PlanVector> corners)
    {
        corners[0] = shape.From;
        corners[1] = shape.To;
        if (!shape.IsBox)
        {
            return shape.From == shape.To ? 1 : 2;
        }

        var along = shape.To - shape.From;
        var half = shape.HalfWidthMetres / along.Length * along.Turned;
        (corners[0], corners[1], corners[2], corners[3]) = (shape.From - half, shape.To - half, shape.To + half, shape.From + half);
        return 4;
    }

    private static double Cores(ReadOnlySpan<PlanVector> a, ReadOnlySpan<PlanVector> b)
    {
        if (a.Length > 2 || b.Length > 2 || (a.Length == 2 && b.Length == 2))
        {
            var apart = Math.Max(Separation(a, b), Separation(b, a));
            if (apart <= 0)
            {
                return apart;
            }
        }

        return Math.Min(Corners(a, b), Corners(b, a));
    }

    /// <summary>The largest distance by which b lies outside a side of a. The two ends of a line count as sides too, for lines that lie in one line.</summary>
    private static double Separation(ReadOnlySpan<PlanVector> a, ReadOnlySpan<PlanVector> b)
    {
        var greatest = double.NegativeInfinity;
        for (var i = 0; i < a.Length && a.Length > 1; i++)
        {
            var side = a[(i + 1) % a.Length] - a[i];
            var along = 1 / side.Length * side;
            greatest = Math.Max(greatest, Outside(a[i], -1 * along.Turned, b));
            if (a.Length == 2)
            {
                greatest = Math.Max(greatest, Outside(a[(i + 1) % 2], along, b));
            }
        }

        return greatest;
    }

    private static double Outside(PlanVector corner, PlanVector normal, ReadOnlySpan<PlanVector> points)
    {
        var least = double.PositiveInfinity;
        foreach (var point in points)
        {
            least = Math.Min(least, PlanVector.Dot(normal, point - corner));
        }

        return least;
    }

    private static double Corners(ReadOnlySpan<PlanVector> corners, ReadOnlySpan<PlanVector> sides)
    {
        var least = double.PositiveInfinity;
        foreach (var corner in corners)
        {
            for (var i = 0; i < sides.Length; i++)
            {
                least = Math.Min(least, Point(corner, sides[i], sides[(i + 1) % sides.Length]));
            }
        }

        return least;
    }

    private static double Point(PlanVector point, PlanVector from, PlanVector to)
    {
        var (along, there) = (to - from, point - from);
        var square = PlanVector.Dot(along, along);
        var share = square > 0 ? Math.Clamp(PlanVector.Dot(there, along) / square, 0, 1) : 0;
        return (there - (share * along)).Length;
    }

    /// <summary>The coordinates of a point along the face, and in front of it.</summary>
    private static PlanVector Local(in Locator face, PlanVector point) =>
        new(PlanVector.Dot(face.Along, point - face.Point), PlanVector.Dot(face.Normal, point - face.Point));

    /// <summary>The depth of a side, as far as it lies within the extent of the face; in the coordinates of the face.</summary>
    private static double Behind(PlanVector a, PlanVector b, double from, double to)
    {
        var (first, last) = a.U <= b.U ? (a, b) : (b, a);
        if (last.U < from || first.U > to)
        {
            return double.NegativeInfinity;
        }

        return -Math.Min(AtU(Math.Max(first.U, from)), AtU(Math.Min(last.U, to)));

        double AtU(double u) => last.U > first.U ? first.V + ((u - first.U) / (last.U - first.U) * (last.V - first.V)) : Math.Min(first.V, last.V);
    }

    private static double Round(PlanVector centre, double radius, double from, double to)
    {
        var beside = Math.Max(Math.Max(from - centre.U, centre.U - to), 0);
        return beside < radius ? Math.Sqrt((radius - beside) * (radius + beside)) - centre.V : double.NegativeInfinity;
    }
}

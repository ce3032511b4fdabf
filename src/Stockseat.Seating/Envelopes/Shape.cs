using Stockseat.Seating.Frames;

namespace Stockseat.Seating.Envelopes;

/// <summary>
/// A part of the plan with its place: a capsule (everything within a radius of a straight line: a disc when the line is a point, a face when the radius is 0),
/// or a rectangle.
/// </summary>
/// <param name="Party">What it is.</param>
/// <param name="From">One end of the line; for a rectangle the middle of its inner side. In metres.</param>
/// <param name="To">The other end; for a rectangle the middle of its outer side.</param>
/// <param name="HalfWidthMetres">The radius; for a rectangle half its width.</param>
/// <param name="IsBox">Whether it is a rectangle.</param>
public readonly record struct Shape(Party Party, PlanVector From, PlanVector To, double HalfWidthMetres, bool IsBox)
{
    public static Shape Disc(Party party, PlanVector centre, double radiusMetres) => new(party, centre, centre, radiusMetres, false);

    public static Shape Capsule(Party party, PlanVector from, PlanVector to, double radiusMetres) => new(party, from, to, radiusMetres, false);

    public static Shape Box(Party party, PlanVector inner, PlanVector outer, double widthMetres) => new(party, inner, outer, widthMetres / 2, true);

    /// <summary>The same shape at another place.</summary>
    public Shape Moved(PlanVector by) => this with { From = From + by, To = To + by };
}

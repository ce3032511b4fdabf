using Stockseat.Seating.Envelopes;
using Stockseat.Seating.Quantities;

namespace Stockseat.Fixtures.Revisions;

/// <summary>The constraint at an end of an envelope, in words and by name.</summary>
public static class Binding
{
    /// <summary>The name of the constraint in the metadata of refusals.</summary>
    public static string Name(Constraint constraint) => constraint switch
    {
        Constraint.StatedRange => "stated-range",
        Constraint.NoSeat => "no-seat",
        Constraint.HeldAngle => "held-angle",
        Constraint.FaceExtent => "face-extent",
        Constraint.Sensitivity => "sensitivity",
        Constraint.Shift => "shift",
        Constraint.Payload => "payload",
        Constraint.Stroke => "stroke",
        Constraint.Gap => "gap",
        Constraint.Reach => "reach",
        _ => throw new ArgumentOutOfRangeException(nameof(constraint), constraint, "no such constraint"),
    };

    /// <summary>Why the next diameter beyond this end does not fit.</summary>
    /// <param name="end">The end.</param>
    /// <param name="obstacles">The plan's obstacles, which have names.</param>
    /// <param name="unit">The unit of its lengths.</param>
    public static string Said(EnvelopeEnd end, IReadOnlyList<Obstacle> obstacles, LengthUnit unit) => end.Constraint switch
    {
        Constraint.StatedRange => $"limits.diameter states {Length(end.Limit, unit)}",
        Constraint.NoSeat => "it would drop between the locators or touch only one",
        Constraint.HeldAngle => $"the seat axis would be within {Deg(end.Limit)} deg of the edge of the cone of the contact normals",
        Constraint.FaceExtent => "it would touch past the end of a face",
        Constraint.Sensitivity => $"its sensitivity would be above {Plain(end.Limit)}",
        Constraint.Shift => $"the shift would be above limits.shift, {Length(end.Limit, unit)}",
        Constraint.Payload => $"it would be heavier than limits.payload, {Plain(end.Limit)} kg",
        Constraint.Stroke => $"the gripper's stroke ends at {Length(end.Limit, unit)}",
        Constraint.Gap when end.Gap is { } gap => Gap(gap, end.Limit ?? 0, obstacles, unit),
        Constraint.Reach when end.Limit is null =>
            "more parts are near enough to meet than can be examined; state limits.diameter, and another limits.gap if a gap has that size at every diameter",
        _ => "diameters beyond are not looked at",
    };

    private static string Gap(GapReading gap, double wanted, IReadOnlyList<Obstacle> obstacles, LengthUnit unit) =>
        gap.Metres < 0 ? $"{Wording.Of(gap, obstacles)} would overlap by {unit.Text(-gap.Metres)}; {unit.Text(wanted)} between them is wanted"
        : unit.Short(gap.Metres) == unit.Short(wanted) ? $"{Wording.Of(gap, obstacles)} would be less than the {unit.Text(wanted)} wanted"
        : $"{Wording.Of(gap, obstacles)} would be {unit.Text(gap.Metres)}; {unit.Text(wanted)} is wanted";

    private static string Length(double? metres, LengthUnit unit) => metres is { } m ? unit.Text(m) : $"what is stated {unit}";

    private static string Deg(double? radians) => Plain(radians * 180 / Math.PI);

    private static string Plain(double? value) => value is { } v ? Rounded.Short(v, 3) : "what is stated";
}

using System.Globalization;
using Stockseat.Seating.Envelopes;

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
    public static string Said(EnvelopeEnd end, IReadOnlyList<Obstacle> obstacles) => end.Constraint switch
    {
        Constraint.StatedRange => $"limits.diameter states {Mm(end.Limit)} mm",
        Constraint.NoSeat => "it would drop between the locators or touch only one",
        Constraint.HeldAngle => $"the seat axis would be within {Deg(end.Limit)} deg of the edge of the cone of the contact normals",
        Constraint.FaceExtent => "it would touch past the end of a face",
        Constraint.Sensitivity => $"its sensitivity would be above {Plain(end.Limit)}",
        Constraint.Shift => $"the shift would be above limits.shift, {Mm(end.Limit)} mm",
        Constraint.Payload => $"it would be heavier than limits.payload, {Plain(end.Limit)} kg",
        Constraint.Stroke => $"the gripper's stroke ends at {Mm(end.Limit)} mm",
        Constraint.Gap when end.Gap is { } gap => Gap(gap, end.Limit ?? 0, obstacles),
        Constraint.Reach when end.Limit is null =>
            "more parts are within its reach than are looked at; state limits.diameter, and no wanted gap that another gap equals at every diameter",
        _ => "diameters beyond are not looked at",
    };

    private static string Gap(GapReading gap, double wanted, IReadOnlyList<Obstacle> obstacles) =>
        gap.Metres < 0 ? $"{Wording.Of(gap, obstacles)} would overlap by {Mm(-gap.Metres)} mm; {Mm(wanted)} mm between them is wanted"
        : Mm(gap.Metres) == Mm(wanted) ? $"{Wording.Of(gap, obstacles)} would be less than the {Mm(wanted)} mm wanted"
        : $"{Wording.Of(gap, obstacles)} would be {Mm(gap.Metres)} mm; {Mm(wanted)} mm is wanted";

    private static string Mm(double? metres) => Plain(1000 * metres);

    private static string Deg(double? radians) => Plain(radians * 180 / Math.PI);

    private static string Plain(double? value) => value is { } v ? v.ToString("0.###", CultureInfo.InvariantCulture) : "what is stated";
}

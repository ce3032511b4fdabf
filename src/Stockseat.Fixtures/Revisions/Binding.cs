using System.Globalization;
using Stockseat.Seating.Envelopes;

namespace Stockseat.Fixtures.Revisions;

/// <summary>What binds at an end of an envelope, in words and by name.</summary>
public static class Binding
{
    /// <summary>The constraint's name in refusals' metadata.</summary>
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

    /// <summary>What stands against the next diameter beyond this end.</summary>
    public static string Said(EnvelopeEnd end) => end.Constraint switch
    {
        Constraint.StatedRange => $"limits.diameter states {Mm(end.Limit)} mm",
        Constraint.NoSeat => "it would drop between the locators or touch only one",
        Constraint.HeldAngle => $"the seat axis would be within {Deg(end.Limit)} deg of the edge of the contacts' cone",
        Constraint.FaceExtent => "it would touch past the end of a face",
        Constraint.Sensitivity => $"its sensitivity would be above {Plain(end.Limit)}",
        Constraint.Shift => $"the shift would be above limits.shift, {Mm(end.Limit)} mm",
        Constraint.Payload => $"it would be heavier than limits.payload, {Plain(end.Limit)} kg",
        Constraint.Stroke => $"the gripper's stroke, {Mm(end.Limit)} mm, does not reach",
        Constraint.Gap when end.Gap is { } gap => Gap(gap, end.Limit ?? 0),
        _ => "nothing further is looked at",
    };

    /// <summary>The two parties of a gap, for example jaw 2 to pin 1 of nest 1,0.</summary>
    public static string Between(GapReading gap) => $"{Party(gap.Mine)}{(gap.Jaws == Jaws.None ? "" : gap.Jaws == Jaws.Open ? " (open)" : " (closed)")} to {Party(gap.Theirs)}";

    private static string Gap(GapReading gap, double wanted) =>
        gap.Metres < 0 ? $"{Between(gap)} would overlap by {Mm(-gap.Metres)} mm, {Mm(wanted)} mm between them is wanted"
        : Mm(gap.Metres) == Mm(wanted) ? $"{Between(gap)} would be less than the {Mm(wanted)} mm wanted"
        : $"{Between(gap)} would be {Mm(gap.Metres)} mm, {Mm(wanted)} mm is wanted";

    private static string Party(Party party)
    {
        var what = party.Kind switch
        {
            PartyKind.Stock => "stock",
            PartyKind.Palm => "palm",
            _ => string.Create(CultureInfo.InvariantCulture, $"{party.Kind.ToString().ToLowerInvariant()} {party.Number}"),
        };
        return (party.Column, party.Row) == (0, 0) ? what : string.Create(CultureInfo.InvariantCulture, $"{what} of the nest {party.Column:+0;-0;0},{party.Row:+0;-0;0} away");
    }

    private static string Mm(double? metres) => Plain(1000 * metres);

    private static string Deg(double? radians) => Plain(radians * 180 / Math.PI);

    private static string Plain(double? value) => value is { } v ? v.ToString("0.###", CultureInfo.InvariantCulture) : "what is stated";
}

using System.Globalization;
using Stockseat.Seating.Envelopes;
using Stockseat.Seating.Quantities;

namespace Stockseat.Fixtures.Revisions;

/// <summary>The words for the parties of a gap, and for what limits a diameter. Nests are counted from the one that is worked at, 0,0.</summary>
public static class Wording
{
    /// <summary>A party: "jaw 2", "pin 1", "stock of nest 0,1", "face 2 of nest -1,0", "post (at nest 2,0)".</summary>
    /// <param name="party">The party.</param>
    /// <param name="obstacles">The plan's obstacles, which have names.</param>
    public static string Of(in Party party, IReadOnlyList<Obstacle> obstacles) => party.Kind switch
    {
        PartyKind.Stock => $"stock{OfNest(party)}",
        PartyKind.Jaw => Numbered("jaw", party),
        PartyKind.Palm => "palm",
        PartyKind.Pin => $"{Numbered("pin", party)}{OfNest(party)}",
        PartyKind.Face => $"{Numbered("face", party)}{OfNest(party)}",
        _ => (party.Number >= 1 && party.Number <= obstacles.Count ? obstacles[party.Number - 1].Name : Numbered("obstacle", party)) + AtNest(party),
    };

    /// <summary>Both parties of a gap and where the jaws are: "jaw 2 (open) to pin 1 of nest 1,0".</summary>
    /// <param name="gap">The gap.</param>
    /// <param name="obstacles">The plan's obstacles.</param>
    public static string Of(in GapReading gap, IReadOnlyList<Obstacle> obstacles)
    {
        var jaws = gap is { Mine.Kind: PartyKind.Stock, Jaws: Jaws.Closed } ? " (gripped)"
            : gap.Mine.Kind != PartyKind.Jaw ? "" : gap.Jaws switch { Jaws.Closed => " (closed)", Jaws.Open => " (open)", _ => "" };
        return $"{Of(gap.Mine, obstacles)}{jaws} to {Of(gap.Theirs, obstacles)}";
    }

    /// <summary>The constraint at an end of an envelope, with its limit: "gap of 2 mm, jaw 2 (open) to pin 1 of nest 1,0".</summary>
    /// <param name="end">The end.</param>
    /// <param name="obstacles">The plan's obstacles.</param>
    /// <param name="unit">The unit of its lengths.</param>
    public static string Of(EnvelopeEnd end, IReadOnlyList<Obstacle> obstacles, LengthUnit unit) => end.Constraint switch
    {
        Constraint.StatedRange => "end of the stated range",
        Constraint.NoSeat => "no seat beyond",
        Constraint.HeldAngle => With("held angle", end.Limit, l => $"{Rounded.Short(l * 180 / Math.PI, 2)} deg"),
        Constraint.FaceExtent => "end of a face",
        Constraint.Sensitivity => With("sensitivity", end.Limit, l => Rounded.Short(l, 3)),
        Constraint.Shift => With("shift", end.Limit, unit.Text),
        Constraint.Payload => With("payload", end.Limit, l => $"{Rounded.Short(l, 3)} kg"),
        Constraint.Stroke => With("stroke of the gripper", end.Limit, unit.Text),
        Constraint.Gap when end.Gap is { } gap => $"{With("gap", end.Limit, unit.Text)}, {Of(gap, obstacles)}",
        Constraint.Gap => With("gap", end.Limit, unit.Text),
        Constraint.Reach when end.Limit is null => "more parts are near enough to meet than can be examined",
        _ => "no stated limit; diameters beyond are not looked at",
    };

    private static string Numbered(string what, in Party party) => string.Create(CultureInfo.InvariantCulture, $"{what} {party.Number}");

    private static string OfNest(in Party party) =>
        (party.Column, party.Row) == (0, 0) ? "" : string.Create(CultureInfo.InvariantCulture, $" of nest {party.Column},{party.Row}");

    /// <summary>An obstacle exists once: the nest in its name is the nest that is worked at when the obstacle is met.</summary>
    private static string AtNest(in Party party) => string.Create(CultureInfo.InvariantCulture, $" (at nest {-party.Column},{-party.Row})");

    private static string With(string what, double? limit, Func<double, string> said) => limit is { } l ? $"{what} of {said(l)}" : what;
}

using System.Globalization;
using Stockseat.Seating.Envelopes;

namespace Stockseat.Fixtures.Revisions;

/// <summary>The words for the parties of a gap, for what limits a diameter, and for lengths. Nests are counted from the one that is worked at, 0,0.</summary>
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
    public static string Of(EnvelopeEnd end, IReadOnlyList<Obstacle> obstacles) => end.Constraint switch
    {
        Constraint.StatedRange => "end of the stated range",
        Constraint.NoSeat => "no seat beyond",
        Constraint.HeldAngle => With("held angle", end.Limit, l => $"{Number(l * 180 / Math.PI, 2)} deg"),
        Constraint.FaceExtent => "end of a face",
        Constraint.Sensitivity => With("sensitivity", end.Limit, l => Number(l, 3)),
        Constraint.Shift => With("shift", end.Limit, Length),
        Constraint.Payload => With("payload", end.Limit, l => $"{Number(l, 3)} kg"),
        Constraint.Stroke => With("stroke of the gripper", end.Limit, Length),
        Constraint.Gap when end.Gap is { } gap => $"{With("gap", end.Limit, Length)}, {Of(gap, obstacles)}",
        Constraint.Gap => With("gap", end.Limit, Length),
        Constraint.Reach when end.Limit is null => "more parts within reach than are looked at",
        _ => "no stated limit; diameters beyond are not looked at",
    };

    /// <summary>The number of a length in millimetres, with at most 3 decimals: "92.4".</summary>
    /// <param name="metres">The length, in metres.</param>
    public static string Millimetres(double metres) => (1000 * metres).ToString("0.###", CultureInfo.InvariantCulture);

    /// <summary>The same with all 3 decimals: "92.400"; never a negative zero.</summary>
    /// <param name="metres">The length, in metres.</param>
    public static string FixedMillimetres(double metres) => (Math.Round(1000 * metres, 3) + 0.0).ToString("0.000", CultureInfo.InvariantCulture);

    /// <summary>The same with at most a given number of decimals, and with the sign for both directions: "+0.4"; 0 has no sign.</summary>
    /// <param name="metres">The length, in metres.</param>
    /// <param name="decimals">The most decimals.</param>
    public static string SignedMillimetres(double metres, int decimals) =>
        Number(1000 * metres, decimals) is var text && metres > 0 && text != "0" ? $"+{text}" : text;

    /// <summary>A length in millimetres with at most 3 decimals: "92.4 mm".</summary>
    /// <param name="metres">The length, in metres.</param>
    public static string Length(double metres) => $"{Number(1000 * metres, 3)} mm";

    /// <summary>A gap in millimetres, rounded down to 0.01 mm, so that it is never shown too large. "0.8 mm"; "overlap of 2.73 mm".</summary>
    /// <param name="metres">The gap, in metres; below 0 the parties overlap.</param>
    public static string Gap(double metres)
    {
        var down = Math.Floor((metres * 100_000) + 1e-3) / 100;
        return down < 0 ? $"overlap of {Number(-down, 2)} mm" : $"{Number(down, 2)} mm";
    }

    /// <summary>A plain number with at most a given number of decimals; never a negative zero.</summary>
    public static string Number(double value, int decimals) =>
        (Math.Round(value, decimals) + 0.0).ToString("0." + new string('#', decimals), CultureInfo.InvariantCulture);

    private static string Numbered(string what, in Party party) => string.Create(CultureInfo.InvariantCulture, $"{what} {party.Number}");

    private static string OfNest(in Party party) =>
        (party.Column, party.Row) == (0, 0) ? "" : string.Create(CultureInfo.InvariantCulture, $" of nest {party.Column},{party.Row}");

    /// <summary>An obstacle exists once: the nest in its name is the nest that is worked at when the obstacle is met.</summary>
    private static string AtNest(in Party party) => string.Create(CultureInfo.InvariantCulture, $" (at nest {-party.Column},{-party.Row})");

    private static string With(string what, double? limit, Func<double, string> said) => limit is { } l ? $"{what} of {said(l)}" : what;
}

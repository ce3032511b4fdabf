using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Envelopes;
using Stockseat.Seating.Quantities;

namespace Stockseat.Cli.Output;

/// <summary>What limits a diameter, short enough for a column: lengths in a unit, angles in degrees.</summary>
internal static class EnvelopeText
{
    /// <summary>What limits the diameters at one end.</summary>
    public static string Of(EnvelopeEnd end, LengthUnit unit) => end.Constraint switch
    {
        Constraint.StatedRange => "the stated range",
        Constraint.NoSeat => "stock drops through",
        Constraint.HeldAngle => $"held angle{Limit(end, l => $"{Rounded.Short(l * 180 / Math.PI, 3)} deg")}",
        Constraint.FaceExtent => "contact off the face",
        Constraint.Sensitivity => $"sensitivity{Limit(end, l => Rounded.Short(l, 3))}",
        Constraint.Shift => $"shift{Limit(end, unit.Text)}",
        Constraint.Payload => $"mass{Limit(end, l => $"{Rounded.Short(l, 3)} kg")}",
        Constraint.Stroke => $"stroke{Limit(end, unit.Text)}",
        Constraint.Gap => $"gap{Limit(end, unit.Text)}{(end.Gap is { } gap ? $", {Wording.Of(gap, [])}" : "")}",
        _ => "nothing",
    };

    /// <summary>A party's kind, as machines get it.</summary>
    public static string Kind(PartyKind kind) => kind switch
    {
        PartyKind.Stock => "stock",
        PartyKind.Jaw => "jaw",
        PartyKind.Palm => "palm",
        PartyKind.Pin => "pin",
        PartyKind.Face => "face",
        _ => "obstacle",
    };

    private static string Limit(EnvelopeEnd end, Func<double, string> said) => end.Limit is { } limit ? $" {said(limit)}" : "";
}

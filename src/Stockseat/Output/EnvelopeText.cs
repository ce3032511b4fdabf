using System.Globalization;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Envelopes;

namespace Stockseat.Cli.Output;

/// <summary>What limits a diameter, short enough for a column: lengths in millimetres, angles in degrees.</summary>
internal static class EnvelopeText
{
    /// <summary>What limits the diameters at one end.</summary>
    public static string Of(EnvelopeEnd end) => end.Constraint switch
    {
        Constraint.StatedRange => "the stated range",
        Constraint.NoSeat => "stock drops through",
        Constraint.HeldAngle => $"held angle{Limit(end, 180 / Math.PI, " deg")}",
        Constraint.FaceExtent => "contact off the face",
        Constraint.Sensitivity => $"sensitivity{Limit(end, 1, "")}",
        Constraint.Shift => $"shift{Limit(end, 1000, " mm")}",
        Constraint.Payload => $"mass{Limit(end, 1, " kg")}",
        Constraint.Stroke => $"stroke{Limit(end, 1000, " mm")}",
        Constraint.Gap => $"gap{Limit(end, 1000, " mm")}{(end.Gap is { } gap ? $", {Wording.Of(gap, [])}" : "")}",
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

    private static string Limit(EnvelopeEnd end, double factor, string unit) =>
        end.Limit is { } limit ? string.Create(CultureInfo.InvariantCulture, $" {factor * limit:0.###}{unit}") : "";
}

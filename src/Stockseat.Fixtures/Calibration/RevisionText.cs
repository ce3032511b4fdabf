using System.Globalization;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Frames;
using Stockseat.Seating.Quantities;

namespace Stockseat.Fixtures.Calibration;

/// <summary>The parts of a revision's file that a calibration writes, in the form in which a person would write them.</summary>
internal static class RevisionText
{
    public static string Whole(int value) => value.ToString(CultureInfo.InvariantCulture);

    /// <summary>A length in mm to 0.1 µm, far below any error of measurement.</summary>
    public static string Length(double metres) => Quoted($"{Rounded.Short(1000 * metres, 4)} mm");

    /// <summary>An angle in degrees to 10⁻⁵.</summary>
    public static string Angle(double radians) => Quoted($"{Rounded.Short(radians * 180 / Math.PI, 5)} deg");

    public static string Position(Vector3 metres) =>
        $"{{ \"x\": {Length(metres.X)}, \"y\": {Length(metres.Y)}, \"z\": {Length(metres.Z)} }}";

    public static string Calibrated(CalibrationNote note) =>
        $$"""
        {
            "at": {{Quoted(note.At)}},
            "by": {{Quoted(note.By)}},
            "method": {{Quoted(note.Method)}},
            "note": {{Quoted(note.Note)}}
          }
        """;

    /// <summary>The frame: the touched nests, with their lengths as they were typed.</summary>
    /// <param name="rows">The touched nests.</param>
    /// <param name="normal">The normal, as the file has it.</param>
    /// <param name="residualLimit">The limit as typed; null: not stated.</param>
    /// <param name="originLimit">The limit as typed; null: not stated.</param>
    public static string Frame(IReadOnlyList<TouchedRow> rows, string normal, string? residualLimit, string? originLimit)
    {
        var text = new StringBuilder(
            "{\n    // Where the seat centre of a master was found in each touched nest; the axes are fitted to it.\n    \"touchedNests\": [\n");
        text.AppendJoin(",\n", rows.Select(r => string.Create(
            CultureInfo.InvariantCulture,
            $"      {{ \"column\": {r.Nest.Column}, \"row\": {r.Nest.Row}, \"diameter\": {Quoted(r.Diameter)}, \"x\": {Quoted(r.X)}, \"y\": {Quoted(r.Y)}, "
                + $"\"z\": {Quoted(r.Z)} }}")));
        text.Append("\n    ],\n    \"normal\": ").Append(normal);
        foreach (var (key, limit) in new[] { ("residualLimit", residualLimit), ("originLimit", originLimit) })
        {
            if (limit is not null)
            {
                text.Append(CultureInfo.InvariantCulture, $",\n    \"{key}\": {Quoted(limit)}");
            }
        }

        return text.Append("\n  }").ToString();
    }

    /// <summary>A direction with all its digits.</summary>
    public static string Direction(Vector3 d) =>
        string.Create(CultureInfo.InvariantCulture, $"{{ \"x\": {d.X + 0.0:R}, \"y\": {d.Y + 0.0:R}, \"z\": {d.Z + 0.0:R} }}");

    private static string Quoted(string text) => $"\"{JsonEncodedText.Encode(text, JavaScriptEncoder.UnsafeRelaxedJsonEscaping)}\"";
}

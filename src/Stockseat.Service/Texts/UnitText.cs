using Stockseat.Fixtures.Reading;

namespace Stockseat.Service.Texts;

/// <summary>The units in which gauges and clients give lengths.</summary>
public static class UnitText
{
    /// <summary>What is expected, in words.</summary>
    public const string Expected = "mm, m, um or in";

    /// <summary>All of them.</summary>
    public static readonly string[] All = ["mm", "m", "um", "in"];

    /// <summary>Whether a text is one of them.</summary>
    public static bool Is(string? text) => text is "mm" or "m" or "um" or "in";

    /// <summary>
    /// The end of a message when a unit is not known but is only another way to write one that is, such as "; did you mean 'mm'?". A unit that merely looks
    /// like another, such as cm, is never taken for it.
    /// </summary>
    /// <param name="typed">What was typed as the unit.</param>
    public static string Hint(string typed) => typed.Trim().TrimEnd('.').ToUpperInvariant() switch
    {
        "MM" or "MILLIMETRE" or "MILLIMETRES" or "MILLIMETER" or "MILLIMETERS" => Meant("mm"),
        "M" or "METRE" or "METRES" or "METER" or "METERS" => Meant("m"),
        "UM" or "\u039cM" or "MICROMETRE" or "MICROMETRES" or "MICROMETER" or "MICROMETERS" or "MICRON" or "MICRONS" => Meant("um"),
        "IN" or "INCH" or "INCHES" or "\"" => Meant("in"),
        _ => "",
    };

    private static string Meant(string unit) => $"; did you mean '{unit}'?";

    /// <summary>The Unit of a section; null when none is stated. Another one is a fault.</summary>
    internal static string? Read(Section section)
    {
        var unit = section.Text("Unit", required: false, longest: 2);
        if (unit is not null && !Is(unit))
        {
            section.Faults.Add(section.At("Unit"), $"is \"{unit}\"; {Expected} was expected{Hint(unit)}");
        }

        return unit;
    }
}

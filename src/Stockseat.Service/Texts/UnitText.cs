using Stockseat.Fixtures.Reading;

namespace Stockseat.Service.Texts;

/// <summary>The units in which gauges and clients give lengths.</summary>
internal static class UnitText
{
    /// <summary>What is expected, in words.</summary>
    public const string Expected = "mm, m, um or in";

    /// <summary>All of them.</summary>
    public static readonly string[] All = ["mm", "m", "um", "in"];

    /// <summary>Whether a text is one of them.</summary>
    public static bool Is(string? text) => text is "mm" or "m" or "um" or "in";

    /// <summary>The Unit of a section; null when none is stated. Another one is a fault.</summary>
    public static string? Read(Section section)
    {
        var unit = section.Text("Unit", required: false, longest: 2);
        if (unit is not null && !Is(unit))
        {
            section.Faults.Add(section.At("Unit"), $"is \"{unit}\"; {Expected} was expected");
        }

        return unit;
    }
}

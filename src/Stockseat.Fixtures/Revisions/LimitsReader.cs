using System.Text.Json;
using Stockseat.Fixtures.Reading;
using Range = Stockseat.Fixtures.Reading.Range;

namespace Stockseat.Fixtures.Revisions;

/// <summary>Reads what bounds an answer: limits, and the stated uncertainties and gripper, which are checked and kept in the content.</summary>
internal static class LimitsReader
{
    private static readonly string[] LengthComponents =
        ["locatorDiameter", "locatorPosition", "frame", "teaching", "seating", "robot", "askedDiameter", "taughtDiameter", "roundness"];

    private static readonly string[] AngleComponents = ["frameAngle", "lean"];

    public static Limits Read(Section section)
    {
        var limits = new Limits
        {
            DiameterMetres = section.LengthPair("diameter", Range.Size, required: false),
            ShiftMetres = section.Length("shift", Range.Gap, required: false),
            Sensitivity = section.Number("sensitivity", new Range(0, 1e6), required: false),
            HeldRadians = section.Angle("heldAngle", new Range(0, Math.PI / 2), required: false) ?? Limits.UsualHeldRadians,
            FirstAboveMetres = section.Length("firstAbove", Range.Gap, required: false),
        };
        section.Length("gap", Range.Gap, required: false);
        section.Length("uncertainty", Range.Gap, required: false);
        section.Mass("payload", new Range(0, 10_000), required: false);
        section.Finish();
        return limits;
    }

    public static void ReadUncertainty(Section? section)
    {
        foreach (var key in LengthComponents)
        {
            Component(section, key, (s, k) => s.Length(k, Range.Gap, required: false));
        }

        foreach (var key in AngleComponents)
        {
            Component(section, key, (s, k) => s.Angle(k, new Range(0, Math.PI / 2), required: false));
        }

        section?.Finish();
    }

    public static void ReadGripper(Section? section)
    {
        if (section is null)
        {
            return;
        }

        section.Whole("jaws", 1, 8);
        section.Length("jawWidth", Range.Size);
        section.Length("jawThickness", Range.Size);
        section.Angle("clocking", Range.Turn);
        if (section.Has("openBy") == section.Has("openTo"))
        {
            section.Faults.Add(section.Path, "states openBy or openTo, and not both");
        }

        section.Length("openBy", Range.Size, required: false);
        section.Length("openTo", Range.Size, required: false);
        section.LengthPair("stroke", Range.Gap);
        section.Finish();
    }

    /// <summary>A limit ±x, or { "standard": x }.</summary>
    private static void Component(Section? section, string key, Func<Section, string, double?> read)
    {
        if (section is null)
        {
            return;
        }

        if (section.KindOf(key) == JsonValueKind.Object)
        {
            var standard = section.Object(key)!;
            read(standard, "standard");
            if (!standard.Has("standard"))
            {
                standard.Faults.Add(standard.At("standard"), "is missing; a standard uncertainty was expected");
            }

            standard.Finish();
        }
        else
        {
            read(section, key);
        }
    }
}

using System.Text.Json;
using Stockseat.Fixtures.Reading;
using Stockseat.Seating.Uncertainty;
using Range = Stockseat.Fixtures.Reading.Range;

namespace Stockseat.Fixtures.Revisions;

/// <summary>Reads how well a fixture is known.</summary>
internal static class UncertaintyReader
{
    private static readonly Range Angle = new(0, Math.PI / 2);

    public static NestInputs? Read(Section? section)
    {
        if (section is null)
        {
            return null;
        }

        var inputs = new NestInputs
        {
            LocatorDiameter = Length(section, "locatorDiameter"),
            LocatorPosition = Length(section, "locatorPosition"),
            LocatorAngle = Turn(section, "locatorAngle"),
            Frame = Length(section, "frame"),
            FrameAngle = Turn(section, "frameAngle"),
            Teaching = Length(section, "teaching"),
            Seating = Length(section, "seating"),
            Robot = Length(section, "robot"),
            AskedDiameter = Length(section, "askedDiameter"),
            TaughtDiameter = Length(section, "taughtDiameter"),
            Roundness = Length(section, "roundness", Distribution.Arcsine),
            Lean = Turn(section, "lean"),
            LeanHeightMetres = section.Length("leanHeight", Range.Gap, required: false),
        };
        section.Finish();
        return inputs;
    }

    private static Input? Length(Section section, string key, Distribution limit = Distribution.Rectangular) =>
        One(section, key, limit, (s, k) => s.Length(k, Range.Gap, required: false));

    private static Input? Turn(Section section, string key) =>
        One(section, key, Distribution.Rectangular, (s, k) => s.Angle(k, Angle, required: false));

    /// <summary>A limit ±x, or { "standard": x }.</summary>
    private static Input? One(Section section, string key, Distribution limit, Func<Section, string, double?> read)
    {
        if (section.KindOf(key) != JsonValueKind.Object)
        {
            return read(section, key) is { } value ? new(value, limit) : null;
        }

        var standard = section.Object(key)!;
        var stated = read(standard, "standard");
        if (!standard.Has("standard"))
        {
            standard.Faults.Add(standard.At("standard"), "is missing; a standard uncertainty was expected");
        }

        standard.Finish();
        return stated is { } s ? Input.Of(s) : null;
    }
}

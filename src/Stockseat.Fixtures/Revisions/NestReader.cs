using Stockseat.Fixtures.Reading;
using Stockseat.Seating.Frames;
using Stockseat.Seating.Locators;
using Range = Stockseat.Fixtures.Reading.Range;

namespace Stockseat.Fixtures.Revisions;

/// <summary>Reads a nest in one of its three forms: pins, vee, locators.</summary>
internal static class NestReader
{
    private static readonly Range Included = new(0.0017, Math.PI - 0.0017); // 0.1 deg to 179.9 deg

    /// <summary>How a spacing is measured: a person who wrote it has looked.</summary>
    public const string Centres = "centres";

    /// <summary>A face along the seat axis is allowed; an overhang of no more than this is rounding.</summary>
    private const double Overhang = 1e-9;

    /// <summary>Reads the nest.</summary>
    /// <param name="section">The nest.</param>
    /// <param name="top">How high its locators are above the ground of the plan, in metres; null when not stated.</param>
    public static Nest? Read(Section section, out double? top)
    {
        top = section.Length("top", Range.Gap, required: false);
        string[] forms = [.. new[] { "pins", "vee", "locators" }.Where(section.Has)];
        if (forms.Length != 1)
        {
            section.Faults.Add(section.Path, $"has {forms.Length} of pins, vee and locators; exactly one was expected");
            section.Finish();
            return null;
        }

        var nest = forms[0] switch
        {
            "pins" => section.Object("pins") is { } pins ? ReadPins(pins) : null,
            "vee" => section.Object("vee") is { } vee ? ReadVee(vee) : null,
            _ => ReadLocators(section),
        };
        section.Finish();
        return nest is { } read && Overlap(read) is { } overlap ? Refuse(section, overlap) : nest;
    }

    private static Nest? Refuse(Section section, string fault)
    {
        section.Faults.Add(section.Path, fault);
        return null;
    }

    /// <summary>What no fixture can have: pins that overlap, or a face that overhangs the stock.</summary>
    private static string? Overlap(in Nest nest)
    {
        var (a, b) = (nest.First, nest.Second);
        if (a.Kind == LocatorKind.Pin && b.Kind == LocatorKind.Pin && (b.Point - a.Point).Length < a.RadiusMetres + b.RadiusMetres)
        {
            return "has pins that overlap; correct the spacing or the diameter, so that they stand apart";
        }

        return a.Normal.V < -Overhang || b.Normal.V < -Overhang
            ? "has a face that overhangs the stock, which could then not be lifted out along the seat axis; a normal from 0 deg to 180 deg was expected"
            : null;
    }

    private static Nest? ReadPins(Section section)
    {
        var (spacing, diameter) = (section.Length("spacing", Range.Size), section.Length("diameter", Range.Size));
        if (section.Text("between", required: false) is { } between && between != Centres)
        {
            section.Faults.Add(section.At("between"), $"is \"{between}\"; only \"{Centres}\" is known: state the spacing between the centres of the pins");
        }

        section.Finish();
        return spacing is { } s && diameter is { } d ? Nest.Pins(s, d) : null;
    }

    private static Nest? ReadVee(Section section)
    {
        var included = section.Angle("includedAngle", Included);
        var (from, to) = Extent(section, "faceFrom", "faceTo", Range.Gap);
        section.Finish();
        return included is { } angle ? Nest.Vee(angle, from, to) : null;
    }

    private static Nest? ReadLocators(Section section)
    {
        if (section.Objects("locators", required: true, 2, 2) is not { } items)
        {
            return null;
        }

        var read = items.Select(ReadLocator).ToArray();
        if (read is not [{ } a, { } b])
        {
            return null;
        }

        if (a.Kind == LocatorKind.Pin && b.Kind == LocatorKind.Pin && a.Point == b.Point)
        {
            section.Faults.Add(section.At("locators"), "are two pins in one place; two different places were expected");
            return null;
        }

        return new Nest(a, b);
    }

    private static Locator? ReadLocator(Section section)
    {
        var (isPin, isFace) = (section.Has("pin"), section.Has("face"));
        if (isPin == isFace)
        {
            section.Faults.Add(section.Path, "has to be a pin or a face, and not both");
            return null;
        }

        var locator = isPin
            ? section.Object("pin") is { } pin ? ReadPin(pin) : null
            : section.Object("face") is { } face ? ReadFace(face) : null;
        section.Finish();
        return locator;
    }

    private static Locator? ReadPin(Section section)
    {
        var (u, v, diameter) = (section.Length("u", Range.Place), section.Length("v", Range.Place), section.Length("diameter", Range.Size));
        section.Finish();
        return u is { } a && v is { } b && diameter is { } d ? Locator.Pin(new PlanVector(a, b), d / 2) : null;
    }

    private static Locator? ReadFace(Section section)
    {
        var (u, v, normal) = (section.Length("u", Range.Place), section.Length("v", Range.Place), section.Angle("normal", Range.Turn));
        var (from, to) = Extent(section, "from", "to", Range.Place);
        section.Finish();
        return u is { } a && v is { } b && normal is { } n ? Locator.Face(new PlanVector(a, b), n, from, to) : null;
    }

    private static (double From, double To) Extent(Section section, string fromKey, string toKey, Range range)
    {
        var from = section.Length(fromKey, range, required: false) ?? double.NegativeInfinity;
        var to = section.Length(toKey, range, required: false) ?? double.PositiveInfinity;
        if (from >= to)
        {
            section.Faults.Add(section.At(toKey), $"is not beyond {fromKey}; a face needs a length above 0");
        }

        return (from, to);
    }
}

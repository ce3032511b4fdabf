using Stockseat.Fixtures.Reading;
using Range = Stockseat.Fixtures.Reading.Range;

namespace Stockseat.Fixtures.Revisions;

/// <summary>Reads what bounds an answer: limits, and the gripper, which is checked and kept in the content.</summary>
internal static class LimitsReader
{
    public static Limits Read(Section section)
    {
        var limits = new Limits
        {
            DiameterMetres = section.LengthPair("diameter", Range.Size, required: false),
            ShiftMetres = section.Length("shift", Range.Gap, required: false),
            Sensitivity = section.Number("sensitivity", new Range(0, 1e6), required: false),
            HeldRadians = section.Angle("heldAngle", new Range(0, Math.PI / 2), required: false) ?? Limits.UsualHeldRadians,
            FirstAboveMetres = section.Length("firstAbove", Range.Gap, required: false),
            UncertaintyMetres = section.Length("uncertainty", Range.Gap, required: false),
        };
        section.Length("gap", Range.Gap, required: false);
        section.Mass("payload", new Range(0, 10_000), required: false);
        section.Finish();
        return limits;
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
}

using Stockseat.Fixtures.Reading;
using Range = Stockseat.Fixtures.Reading.Range;

namespace Stockseat.Fixtures.Revisions;

/// <summary>Reads the limits that an answer must stay within.</summary>
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
            LengthMetres = section.Length("length", Range.Gap, required: false),
            RecheckMetres = section.Length("recheck", Range.Gap, required: false),
            GapMetres = section.Length("gap", Range.Gap, required: false),
            PayloadKilograms = section.Mass("payload", new Range(0, 10_000), required: false),
        };
        section.Finish();
        return limits;
    }
}

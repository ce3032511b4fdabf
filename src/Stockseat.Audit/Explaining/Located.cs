using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Positions;
using Stockseat.Answers.State;
using Stockseat.Fixtures.Revisions;
using Stockseat.Seating.Quantities;

namespace Stockseat.Audit.Explaining;

/// <summary>What a locate asked, whether it was answered or refused, and from what it was decided.</summary>
internal sealed record Located
{
    private Located(EntryBody entry, Situation before, MeasurementBody? measured)
    {
        (Entry, Before, Measured) = (entry, before, measured);
        State = entry.Fixture is { } name ? before.Find(name) : null;
        Revision = State?.InForce is { } inForce
            && (entry.Revision is null || entry.Revision == inForce.Number) && (entry.Digest is null || entry.Digest == inForce.Digest) ? inForce : null;
    }

    public EntryBody Entry { get; }

    public Situation Before { get; }

    /// <summary>The unit of the lengths in sentences.</summary>
    public LengthUnit Unit { get; init; } = LengthUnit.Millimetre;

    /// <summary>The measurement that it names, as recorded; null when there is none, or when it can't be found.</summary>
    public MeasurementBody? Measured { get; }

    /// <summary>What is known about its fixture; null when nothing is.</summary>
    public FixtureState? State { get; }

    /// <summary>The revision that it comes from; null when that is not the one that was in force right before it.</summary>
    public Revision? Revision { get; }

    public string? PurposeName { get; private init; }

    public Purpose Purpose => PurposeName == Purpose.Place.Name() ? Purpose.Place : Purpose.Pick;

    /// <summary>The nest: column, row; null when the entry does not say.</summary>
    public (int Column, int Row)? Nest { get; private init; }

    /// <summary>The diameter stated or measured, in metres; null when there is none that could be used.</summary>
    public double? Diameter { get; private init; }

    /// <summary>The length that was used, in metres; null where the position does not follow it.</summary>
    public double? Length { get; private init; }

    public long? Measurement { get; private init; }

    public DiameterFrom? From { get; private init; }

    public string? Lot { get; private init; }

    public LotTerms? LotTerms { get; private init; }

    public double? Nominal { get; private init; }

    public double? Within { get; private init; }

    /// <summary>The stand-off, in metres; null when neither the entry nor the revision says it.</summary>
    public double? StandOff { get; private init; }

    public static Located Of(ServedBody body, Situation before, MeasurementBody? measured) => Of(new(body, before, measured), body) with
    {
        StandOff = double.IsFinite(body.StandOff) && body.StandOff >= 0 ? body.StandOff : null,
    };

    public static Located Of(RefusalBody body, Situation before, MeasurementBody? measured)
    {
        var located = Of(new(body, before, measured), body);
        return located with { StandOff = located.Revision is { } revision ? Fit.StandOff(revision, located.Purpose) : null };
    }

    private static Located Of(Located located, ILocateInputs inputs) => located with
    {
        PurposeName = inputs.Purpose,
        Nest = Steps.Nest(inputs.Nest),
        Diameter = Usable(inputs.Diameter),
        Length = inputs.Length,
        Measurement = inputs.Measurement,
        From = inputs.From,
        Lot = inputs.Lot,
        LotTerms = inputs.LotTerms,
        Nominal = inputs.Nominal,
        Within = inputs.Within,
    };

    private static double? Usable(double? diameter) => diameter > 0 && double.IsFinite(diameter.Value) ? diameter : null;
}

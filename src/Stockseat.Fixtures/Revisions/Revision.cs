using Stockseat.Seating.Envelopes;
using Stockseat.Seating.Frames;
using Stockseat.Seating.Locators;
using Stockseat.Seating.Seats;
using Stockseat.Seating.Uncertainty;

namespace Stockseat.Fixtures.Revisions;

/// <summary>One immutable, numbered calibration of a fixture. Metres and radians throughout.</summary>
public sealed class Revision
{
    private volatile PreparedRevision? _prepared;

    /// <summary>The fixture's name.</summary>
    public required string Fixture { get; init; }

    /// <summary>Its number, from 1.</summary>
    public required int Number { get; init; }

    /// <summary>SHA-256 over the canonical JSON of the resolved values, in lower-case hexadecimal.</summary>
    public required string Digest { get; init; }

    /// <summary>The resolved values in SI units as canonical JSON, UTF-8: what the digest covers and the ledger keeps.</summary>
    public required ReadOnlyMemory<byte> Content { get; init; }

    /// <summary>When, by whom and how the values were found.</summary>
    public required CalibrationNote Calibrated { get; init; }

    /// <summary>The two locators of each nest.</summary>
    public required Nest Nest { get; init; }

    /// <summary>How the nests repeat.</summary>
    public required Layout Layout { get; init; }

    /// <summary>The diameter that the origin was taught with, in metres.</summary>
    public required double TaughtDiameterMetres { get; init; }

    /// <summary>The taught origin: the pose of nest 0,0's seat centre in base, as the program was taught it.</summary>
    public required Pose TaughtOrigin { get; init; }

    /// <summary>Which frames were active when the origin was taught: for people.</summary>
    public string? TaughtIn { get; init; }

    /// <summary>What was used to teach the origin: for people.</summary>
    public string? TaughtWith { get; init; }

    /// <summary>The plan's axes in base.</summary>
    public required PlanFrame Frame { get; init; }

    /// <summary>The touched nests that the axes were fitted to; null when they are stated.</summary>
    public TouchedFrame? Touched { get; init; }

    /// <summary>The stand-off for a pick, in metres.</summary>
    public double StandOffPickMetres { get; init; }

    /// <summary>The stand-off for a place, in metres.</summary>
    public double StandOffPlaceMetres { get; init; }

    /// <summary>The limits that answers must stay within.</summary>
    public required Limits Limits { get; init; }

    /// <summary>How the position follows the stock's length; null: it does not.</summary>
    public Grip? Grip { get; init; }

    /// <summary>Whether a place without a stated diameter may use the measurement of the raw stock.</summary>
    public bool ReturnsRawStock { get; init; }

    /// <summary>What seats the stock against its locators.</summary>
    public SeatedBy SeatedBy { get; init; } = SeatedBy.Weight;

    /// <summary>Which way is up, in base; base z unless stated. Of any length but 0.</summary>
    public Vector3 Up { get; init; } = new(0, 0, 1);

    /// <summary>The gauge that measured the taught diameter: an error that it had there it has at an ask too.</summary>
    public string? MeasuredWith { get; init; }

    /// <summary>How well the fixture is known; null when the file states nothing about that.</summary>
    public NestInputs? Uncertainty { get; init; }

    /// <summary>What is around the stock.</summary>
    public required Surroundings Around { get; init; }

    /// <summary>The seat at the taught diameter.</summary>
    public required Seat TaughtSeat { get; init; }

    /// <summary>The seat centre at the taught diameter, in the plan, in metres.</summary>
    public PlanVector TaughtCentre => TaughtSeat.Centre;

    /// <summary>The values that decisions need, see <see cref="PreparedRevision"/>.</summary>
    /// <exception cref="InvalidOperationException">The revision was not prepared: a bug in the code that read it.</exception>
    public PreparedRevision Prepared => _prepared
        ?? throw new InvalidOperationException(
            $"a decision needs revision {Number} of {Fixture}, which was not prepared; whoever reads a revision calls Prepare");

    /// <summary>Whether it is prepared.</summary>
    public bool IsPrepared => _prepared is not null;

    /// <summary>Prepares it for decisions; does nothing when it is prepared already. It may take long: never call it on the thread that decides.</summary>
    public Revision Prepare()
    {
        _prepared ??= PreparedRevision.Of(this);
        return this;
    }

    /// <summary>The diameters that the revision holds, for code that shows or checks it; solved when they are first needed.</summary>
    public RevisionEnvelopes Envelopes() => Prepare().Prepared.Envelopes;

    /// <summary>The plan with everything that limits a diameter. A place is judged among the largest stock that a pick holds.</summary>
    /// <param name="place">Whether stock is set down; otherwise it is picked.</param>
    public Plan PlanFor(bool place)
    {
        var plan = RevisionEnvelopes.PlanFor(this, place);
        return place ? plan with { NeighbourDiameterMetres = Envelopes().Pick?.Greatest.DiameterMetres } : plan;
    }
}

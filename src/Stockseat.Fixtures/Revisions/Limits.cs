namespace Stockseat.Fixtures.Revisions;

/// <summary>The limits that an answer of a revision must stay within. An absent limit does not limit anything.</summary>
public sealed record Limits
{
    /// <summary>
    /// The least angle between the seat axis and the edge of the cone of the contact normals, unless the file states one: 5°. Our own choice, without a source.
    /// </summary>
    public const double UsualHeldRadians = 5 * Math.PI / 180;

    /// <summary>The diameters, in metres, from and to.</summary>
    public (double From, double To)? DiameterMetres { get; init; }

    /// <summary>The longest shift, in metres.</summary>
    public double? ShiftMetres { get; init; }

    /// <summary>The greatest |dC/dR|.</summary>
    public double? Sensitivity { get; init; }

    /// <summary>The least angle between seat axis and cone edge, in radians.</summary>
    public double HeldRadians { get; init; } = UsualHeldRadians;

    /// <summary>The least gap between parts that may meet, in metres.</summary>
    public double? GapMetres { get; init; }

    /// <summary>The heaviest stock, in kilograms.</summary>
    public double? PayloadKilograms { get; init; }

    /// <summary>
    /// How far a shift may differ from the last confirmed one before an answer is a first one again, in metres; absent: any difference makes it one.
    /// </summary>
    public double? FirstAboveMetres { get; init; }

    /// <summary>The greatest expanded uncertainty, k = 2, along or across, in metres.</summary>
    public double? UncertaintyMetres { get; init; }

    /// <summary>The longest shift along the normal by the stock's length, in metres.</summary>
    public double? LengthMetres { get; init; }

    /// <summary>The longest miss of a recheck, in metres.</summary>
    public double? RecheckMetres { get; init; }
}

using Stockseat.Seating.Envelopes;

namespace Stockseat.Fixtures.Planning;

/// <summary>What a candidate does over the range. What is not known, because the stock drops there, is absent.</summary>
public sealed record JudgedCandidate
{
    public required Candidate Candidate { get; init; }

    /// <summary>Whether all that was asked for holds over the whole range.</summary>
    public required bool Holds { get; init; }

    /// <summary>How much of the range holds around its middle, 0 to 1.</summary>
    public required double Share { get; init; }

    /// <summary>The half-angle at both ends of the range, in radians: see <see cref="Candidate.HalfAngle"/>.</summary>
    public (double? From, double? To) HalfAngleRadians { get; init; }

    /// <summary>The angle between the seat axis and the contacts' normals at both ends, in radians.</summary>
    public (double? From, double? To) HeldRadians { get; init; }

    /// <summary>|dC/dR| at both ends.</summary>
    public (double? From, double? To) Sensitivity { get; init; }

    /// <summary>
    /// How far the angle between seat axis and contacts stays from both of its limits, the smaller of the two, in radians; below 0 beyond one.
    /// </summary>
    public double? MarginRadians { get; init; }

    /// <summary>How far the seat centre moves from the smallest to the largest stock, in metres.</summary>
    public double? ShiftMetres { get; init; }

    /// <summary>
    /// The smallest gap over the range; but for open jaws to the stock that they are around. Null when there is nothing to meet, the stock drops somewhere in
    /// it, or it was not looked for.
    /// </summary>
    public SmallestGap? Gap { get; init; }

    /// <summary>How far a vee's faces were taken to reach from the apex, in metres; null: pins, or without an end.</summary>
    public double? FaceMetres { get; init; }

    /// <summary>The diameters around the middle of the range in which all holds; null when the middle itself does not.</summary>
    public Envelope? Envelope { get; init; }

    /// <summary>What does not hold at the middle of the range, when there is no envelope.</summary>
    public EnvelopeEnd? Violated { get; init; }
}

using Stockseat.Seating.Envelopes;

namespace Stockseat.Fixtures.Planning;

/// <summary>How a candidate does over the range. Values that are unknown, because the stock drops there, are absent.</summary>
public sealed record JudgedCandidate
{
    public required Candidate Candidate { get; init; }

    /// <summary>Whether everything that was asked for holds over the whole range.</summary>
    public required bool Holds { get; init; }

    /// <summary>The share of the range, around its middle, in which everything holds; 0 to 1.</summary>
    public required double Share { get; init; }

    /// <summary>The half-angle at both ends of the range, in radians: see <see cref="Candidate.HalfAngle"/>.</summary>
    public (double? From, double? To) HalfAngleRadians { get; init; }

    /// <summary>The angle between the seat axis and the contacts' normals at both ends, in radians.</summary>
    public (double? From, double? To) HeldRadians { get; init; }

    /// <summary>|dC/dR| at both ends.</summary>
    public (double? From, double? To) Sensitivity { get; init; }

    /// <summary>
    /// How far the angle between seat axis and contacts stays from each of its two limits, the smaller distance, in radians; below 0 when it is beyond one.
    /// </summary>
    public double? MarginRadians { get; init; }

    /// <summary>How far the seat centre moves from the smallest to the largest stock, in metres.</summary>
    public double? ShiftMetres { get; init; }

    /// <summary>
    /// The smallest gap over the range, except from open jaws to the stock between them. Null when there is nothing to meet, when the stock drops somewhere in
    /// the range, or when it was not looked for.
    /// </summary>
    public SmallestGap? Gap { get; init; }

    /// <summary>How far from the apex the faces of a vee were taken to reach, in metres; null: pins, or faces without an end.</summary>
    public double? FaceMetres { get; init; }

    /// <summary>The diameters around the middle of the range in which everything holds; null when the middle itself does not.</summary>
    public Envelope? Envelope { get; init; }

    /// <summary>The constraint that does not hold at the middle of the range, when there is no envelope.</summary>
    public EnvelopeEnd? Violated { get; init; }
}

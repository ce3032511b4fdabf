namespace Stockseat.Seating.Uncertainty;

/// <summary>
/// How well a fixture is known, in metres and radians. A value that is null is not stated: it contributes nothing, and is listed as not stated.
/// </summary>
public sealed record NestInputs
{
    public Input? LocatorDiameter { get; init; }

    public Input? LocatorPosition { get; init; }

    public Input? LocatorAngle { get; init; }

    public Input? Frame { get; init; }

    public Input? FrameAngle { get; init; }

    public Input? Teaching { get; init; }

    public Input? Seating { get; init; }

    public Input? Robot { get; init; }

    public Input? AskedDiameter { get; init; }

    public Input? TaughtDiameter { get; init; }

    /// <summary>How far the contour may depart from its mean circle, on the radius.</summary>
    public Input? Roundness { get; init; }

    public Input? Lean { get; init; }

    /// <summary>The distance along w from the contacts to where the stock is gripped, in metres: a lean acts over this distance.</summary>
    public double? LeanHeightMetres { get; init; }
}

namespace Stockseat.Seating.Uncertainty;

/// <summary>How well the diameter is known that the seat is computed for, on the diameter, in metres.</summary>
/// <param name="Gauge">The gauge's limits of error.</param>
/// <param name="Resolution">The step of its display.</param>
/// <param name="Repeatability">How the mean of its readings repeats.</param>
/// <param name="Asked">A diameter that no gauge with limits of error measured; the gauge's values are null then.</param>
/// <param name="SameGauge">Whether the same gauge measured the taught diameter: what it shows too much there it shows too much here.</param>
public readonly record struct DiameterInputs(Input? Gauge, Input? Resolution, Input? Repeatability, Input? Asked, bool SameGauge)
{
    /// <summary>A diameter that was stated.</summary>
    public static DiameterInputs Stated(Input asked) => new(null, null, null, asked, false);
}

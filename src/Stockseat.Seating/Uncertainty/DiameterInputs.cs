namespace Stockseat.Seating.Uncertainty;

/// <summary>How well the diameter is known for which the seat is computed; on the diameter, in metres.</summary>
/// <param name="Gauge">The gauge's limits of error.</param>
/// <param name="Resolution">The step of the gauge's display.</param>
/// <param name="Repeatability">How well the mean of the gauge's readings repeats.</param>
/// <param name="Asked">The uncertainty of a diameter that was not measured by a gauge with limits of error; the values of the gauge are then null.</param>
/// <param name="SameGauge">Whether the same gauge measured the taught diameter: an error that it has there it has here too.</param>
public readonly record struct DiameterInputs(Input? Gauge, Input? Resolution, Input? Repeatability, Input? Asked, bool SameGauge)
{
    /// <summary>A diameter that was stated.</summary>
    public static DiameterInputs Stated(Input asked) => new(null, null, null, asked, false);
}

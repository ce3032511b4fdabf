namespace Stockseat.Seating.Fitting;

/// <summary>Values of the locators, and the frame, fitted to masters of several diameters.</summary>
public sealed class LocatorFit
{
    /// <summary>The values, in the order in which the parameters were given.</summary>
    public required IReadOnlyList<FittedParameter> Parameters { get; init; }

    /// <summary>
    /// The frame that belongs to these values; the residuals, the rms and the worst are those of this fit. The degrees of freedom, the standard deviation, the
    /// covariance and the outlier are those of frame and parameters together.
    /// </summary>
    public required FrameFit Frame { get; init; }

    /// <summary>The standard deviation of one touch along one axis, in metres: as stated, or estimated from the residuals.</summary>
    public required double TouchingStandardMetres { get; init; }

    /// <summary>Whether the standard deviation was estimated.</summary>
    public required bool TouchingEstimated { get; init; }

    /// <summary>How many steps the iteration took.</summary>
    public required int Steps { get; init; }
}

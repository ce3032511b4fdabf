namespace Stockseat.Seating.Fitting;

/// <summary>Values of the locators, and the frame, fitted to masters of several diameters.</summary>
public sealed class LocatorFit
{
    /// <summary>The values, in the order of the parameters that were asked for.</summary>
    public required IReadOnlyList<FittedParameter> Parameters { get; init; }

    /// <summary>
    /// The frame with these values; residuals, rms and worst are those of this fit. Its degrees of freedom, standard deviation, covariance and
    /// outlier are of frame and parameters together.
    /// </summary>
    public required FrameFit Frame { get; init; }

    /// <summary>The standard deviation of one touch along one axis that was used, in metres: as stated, or estimated from the residuals.</summary>
    public required double TouchingStandardMetres { get; init; }

    /// <summary>Whether it was estimated.</summary>
    public required bool TouchingEstimated { get; init; }

    /// <summary>How many steps the iteration took.</summary>
    public required int Steps { get; init; }
}

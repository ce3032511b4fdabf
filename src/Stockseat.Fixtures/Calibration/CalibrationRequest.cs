using Stockseat.Fixtures.Revisions;

namespace Stockseat.Fixtures.Calibration;

/// <summary>What a calibration does with the touched nests.</summary>
public sealed record CalibrationRequest
{
    /// <summary>The number of the revision that is written.</summary>
    public required int Number { get; init; }

    /// <summary>When, by whom and how it was calibrated.</summary>
    public required CalibrationNote Note { get; init; }

    /// <summary>The longest residual, as typed with its unit; null: the limit that the revision states, or else the usual one.</summary>
    public string? ResidualLimit { get; init; }

    /// <summary>The farthest that nest 0,0 may lie from the taught origin, as typed; null: the limit that the revision states, or else the usual one.</summary>
    public string? OriginLimit { get; init; }

    /// <summary>Whether the position of the origin is taken from the touched nests; otherwise the taught position is kept, and compared with them.</summary>
    public bool OriginFromTouches { get; init; }

    /// <summary>Whether sizes of the locators are fitted too.</summary>
    public bool FitLocators { get; init; }

    /// <summary>The standard deviation of one touch along one axis, in metres; null: estimated from the residuals.</summary>
    public double? TouchingMetres { get; init; }
}

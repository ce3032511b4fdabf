using System.Text.Json.Serialization;

namespace Stockseat.Cli.Output.Shapes;

/// <summary>What came of a calibration; null where nothing was written.</summary>
internal sealed record CalibrationShape(
    [property: JsonIgnore(Condition = JsonIgnoreCondition.Never)] string? Written, IEnumerable<string> Faults, string Unit,
    TouchedFrameShape? Frame, FrameTurnShape? Turn, FittedLocatorsShape? Locators);

/// <summary>How far the fitted axes are turned from those of the revision that the fit starts from; the whole turn in its u, v, w.</summary>
internal sealed record FrameTurnShape(int Revision, double SeatAxis, double Normal, double[] About);

internal sealed record FittedLocatorsShape(IEnumerable<FittedParameterShape> Parameters, double Touching, bool TouchingEstimated, double Rms);

internal sealed record FittedParameterShape(string Name, double Drawing, double Value, double Standard, double PosteriorToPrior);

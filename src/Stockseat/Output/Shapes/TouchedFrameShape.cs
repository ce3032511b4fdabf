using System.Text.Json.Serialization;

namespace Stockseat.Cli.Output.Shapes;

/// <summary>How touched nests fit; null where that is not known.</summary>
internal sealed record TouchedFrameShape(
    IEnumerable<TouchedNestShape> Nests, double Rms, double Worst, double ResidualLimit,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.Never)] int[]? StandsOut,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.Never)] double? Flatness,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.Never)] double? ScaleAlongU,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.Never)] double? ScaleAlongV,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.Never)] double? Squareness,
    double[] SeatAxis, double[] Normal, bool NormalHeld, double NormalTilt, int DegreesOfFreedom,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.Never)] double? Sigma,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.Never)] double[][]? Covariance,
    double[] Origin, double[] OriginMiss, double OriginLimit);

internal sealed record TouchedNestShape(int[] Nest, double Diameter, double[] Found, double[] Residual);

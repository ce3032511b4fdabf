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
    double[] SeatAxis, double[] Normal, bool NormalHeld, double NormalTilt, RowTrendShape? Trend, int DegreesOfFreedom,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.Never)] double? Sigma,
    [property: JsonIgnore(Condition = JsonIgnoreCondition.Never)] double[][]? Covariance,
    double[] Origin, double[] OriginMiss, double OriginLimit);

/// <summary>An even rise of a row out of the plan of a held normal; the normal that fits it.</summary>
internal sealed record RowTrendShape(double[] Along, double Slope, double Rise, double[] Normal);

internal sealed record TouchedNestShape(int[] Nest, double Diameter, double[] Found, double[] Residual);

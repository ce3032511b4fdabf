using Stockseat.Seating.Fitting;
using Stockseat.Seating.Quantities;

namespace Stockseat.Fixtures.Revisions;

/// <summary>What an even rise of a row of touched nests means, in words.</summary>
public static class TrendText
{
    /// <summary>One sentence, without a full stop at its end.</summary>
    /// <param name="trend">The trend.</param>
    /// <param name="unit">The unit of lengths.</param>
    public static string Said(RowTrend trend, LengthUnit unit)
    {
        var alongU = Math.Abs(trend.AlongPlan.X) >= Math.Abs(trend.AlongPlan.Y);
        var (axis, across, too) = alongU ? ("u", "v", "") : ("v", "u", ", and the seat axis with it");
        var (x, y, z) = trend.Normal;
        return $"towards growing {axis} the touched nests {(trend.RiseMetres > 0 ? "rise" : "sink")} evenly out of the plan, by "
            + $"{unit.Text(Math.Abs(trend.RiseMetres))} over the row: the stated normal is turned by {Rounded.Short(Math.Abs(Degrees(trend)), 3)} deg about "
            + $"{across}{too}. Correct the stated frame so that its normal is x {Number(x)}, y {Number(y)}, z {Number(z)}, and calibrate again";
    }

    private static double Degrees(RowTrend trend) => trend.SlopeRadians * 180 / Math.PI;

    private static string Number(double value) => Rounded.Fixed(value, 6);
}

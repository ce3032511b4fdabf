using Stockseat.Seating.Frames;

namespace Stockseat.Seating.Fitting;

/// <summary>
/// How uncertain a fitted frame is. A small error of the frame moves the plan point x by θ × x + t, in plan axes: θ the rotation vector about u, v, w in
/// radians, t the displacement of the plan's origin in metres.
/// </summary>
public sealed class FrameCovariance
{
    private readonly double[,] six;
    private readonly bool normalHeld;

    internal FrameCovariance(double[,] six, bool normalHeld)
    {
        this.six = six;
        this.normalHeld = normalHeld;
    }

    /// <summary>The covariance of two of θu, θv, θw, tu, tv, tw, in this order; 0 for the two turns that are not fitted when the normal is held.</summary>
    public double this[int row, int column] => six[row, column];

    /// <summary>
    /// The standard uncertainty of the turn about u, in radians; null when the normal is held: how true the stated normal is, is not known here.
    /// </summary>
    public double? AboutURadians => normalHeld ? null : Math.Sqrt(six[0, 0]);

    /// <summary>The standard uncertainty of the turn about v, likewise.</summary>
    public double? AboutVRadians => normalHeld ? null : Math.Sqrt(six[1, 1]);

    /// <summary>The standard uncertainty of the turn about w, in the plan, in radians.</summary>
    public double AboutWRadians => Math.Sqrt(six[2, 2]);

    /// <summary>The standard uncertainties of the plan's origin along u, v, w, in metres.</summary>
    public Vector3 OriginMetres => At(default);

    /// <summary>The standard uncertainties of a fitted point along u, v, w, in metres. They do not include the error of a held normal.</summary>
    /// <param name="planMetres">The point of the plan (u, v, w), in metres.</param>
    public Vector3 At(Vector3 planMetres)
    {
        var (x, y, z) = planMetres;
        return new(Along([0, z, -y, 1, 0, 0]), Along([-z, 0, x, 0, 1, 0]), Along([y, -x, 0, 0, 0, 1]));
    }

    private double Along(ReadOnlySpan<double> row)
    {
        var variance = 0.0;
        for (var i = 0; i < 6; i++)
        {
            for (var j = 0; j < 6; j++)
            {
                variance += row[i] * six[i, j] * row[j];
            }
        }

        return Math.Sqrt(Math.Max(variance, 0)); // rounding may leave −1e-30 where it is 0
    }
}

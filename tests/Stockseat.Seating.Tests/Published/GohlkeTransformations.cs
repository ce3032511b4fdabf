namespace Stockseat.Seating.Tests.Published;

/// <summary>
/// Origin: C. Gohlke, transformations.py, its doctests. Edition: as stored on github.com/cgohlke/transformations. Licence: BSD-3-Clause.
/// Read; of the quaternion about (1, 2, 3) only the first digits were read, the rest is from memory. Quaternions scalar first. Radians.
/// </summary>
public static class GohlkeTransformations
{
    /// <summary>Axis, angle, quaternion, tolerance.</summary>
    public static TheoryData<double[], double, double[], double> AboutAnAxis => new()
    {
        { [1, 0, 0], 0.123, [0.99810947, 0.06146124, 0, 0], 5e-9 },
        { [1, 2, 3], 0.123, [0.9981095, 0.0164262, 0.0328524, 0.0492786], 5e-8 },
    };

    /// <summary>'ryxz' 1, 2, 3: intrinsic, about y, then the new x, then the new z.</summary>
    public static double[] IntrinsicYxz => [0.435953, 0.310622, -0.718287, 0.444435];

    /// <summary>'syxz' 1, 2, 3: about the fixed y, x, z; the sum of the matrix' first row.</summary>
    public const double FirstRowOfStaticYxz = -1.34786452;
}

namespace Stockseat.Seating.Tests.Published;

/// <summary>
/// Origin: SciPy, the documentation of scipy.spatial.transform.Rotation and its test_rotation.py. Edition: 1.10.1; the tests as stored on
/// github.com/scipy/scipy. Licence: BSD-3-Clause. Read, not from memory. Eight digits, or seven where printed so. SciPy writes quaternions SCALAR LAST; here
/// the scalar comes first.
/// </summary>
public static class ScipyRotations
{
    /// <summary>
    /// From 'zyx', lower case, so EXTRINSIC: about z, then the fixed y, then the fixed x. Degrees; quaternion w, x, y, z; and what becomes of (1, 2, 3).
    /// </summary>
    public static TheoryData<double[], double[], double[]> ExtrinsicZyx => new()
    {
        { [90, 0, 0], [0.70710678, 0, 0, 0.70710678], [-2, 1, 3] },
        { [0, 45, 0], [0.92387953, 0, 0.38268343, 0], [2.82842712, 2, 1.41421356] },
        { [45, 60, 30], [0.72331741, 0.39190384, 0.36042341, 0.43967974], [2.24452282, 0.78093109, 2.89002836] },
    };

    /// <summary>Turns in the order in which a vector meets them about fixed axes, degrees, and the matrix by rows.</summary>
    public static TheoryData<string, double[], double[]> Chains => new()
    {
        // extrinsic 'zxy' 30, 60, 45
        { "zxy", [30, 60, 45], [0.91855865, 0.1767767, 0.35355339, 0.25, 0.4330127, -0.8660254, -0.30618622, 0.88388348, 0.35355339] },
        // intrinsic 'ZXY' 30, 60, 45: the last turn meets the vector first
        { "yxz", [45, 60, 30], [0.3061862, -0.25, 0.9185587, 0.8838835, 0.4330127, -0.1767767, -0.3535534, 0.8660254, 0.3535534] },
        // extrinsic 'zx' 90, 90
        { "zx", [90, 90], [0, -1, 0, 0, 0, -1, 1, 0, 0] },
    };

    /// <summary>Quaternions of any length, w, x, y, z, and the matrix by rows.</summary>
    public static TheoryData<double[], double[]> Matrices => new()
    {
        { [0.7071067811865476, 0, 0, 0.7071067811865475], [0, -1, 0, 1, 0, 0, 0, 0, 1] },
        {
            [4, 1, 2, 3],
            [
                0.13333333333333333, -0.6666666666666666, 0.7333333333333334, 0.9333333333333332, 0.3333333333333333, 0.13333333333333333, -0.3333333333333333,
                0.6666666666666666, 0.6666666666666666,
            ]
        },
        { [1, 1, 1, 6], [-0.8974359, -0.2564103, 0.3589744, 0.3589744, -0.8974359, 0.2564103, 0.2564103, 0.3589744, 0.8974359] },
    };

    /// <summary>Rotation vectors (axis times angle in radians) and quaternions w, x, y, z of any length.</summary>
    public static TheoryData<double[], double[]> Vectors => new()
    {
        { [0, 0, 1.57079633], [0.70710678, 0, 0, 0.70710678] },
        { [1, 2, 2], [0.0707372, 0.3324983, 0.6649967, 0.6649967] },
        { [1, -1, 0.5], [0.7316889, 0.4544258, -0.4544258, 0.2272129] },
        { [0.2, 0.3, 0.4], [0.9639685, 0.09879603932153465, 0.14819405898230198, 0.1975920786430693] },
        { [0.5772381, 1.1544763, -1.7317144], [2, 1, 2, -3] },
    };

    /// <summary>90° about z, then the rotation vector (π/4, 0, 0), of (1, 2, 3).</summary>
    public static double[] Composition => [-2, -1.41421356, 2.82842712];
}

using System.Text.Json;
using Stockseat.Seating.Frames;

namespace Stockseat.Seating.Tests.Published;

/// <summary>The cases of rigid-fits.json, and two examples: one printed by S. Umeyama, one from the tests of SciPy.</summary>
public static class RigidFits
{
    private static readonly Table Read = JsonSerializer.Deserialize<Table>(
        File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "Published", "rigid-fits.json")), JsonSerializerOptions.Web)!;

    /// <summary>
    /// S. Umeyama, IEEE PAMI 13(4), 1991, 376-380: the printed example in the plane, three points that are mirrored. From memory: the matrix, to three digits;
    /// recomputed it agrees. The translation and the mean square without a scale follow from it by arithmetic and are not printed.
    /// </summary>
    public static readonly (Vector3[] X, Vector3[] Y, double Cos, double Sin, Vector3 Translation, double MeanSquare) Umeyama = (
        [new(0, 0, 0), new(1, 0, 0), new(0, 2, 0)],
        [new(0, 0, 0), new(-1, 0, 0), new(0, 2, 0)],
        0.832, 0.555,
        new(-0.9804835622627672, 0.29686653584984735, 0), 0.6197549886826713);

    /// <summary>
    /// SciPy, scipy/spatial/transform/tests/test_rotation.py of github.com/scipy/scipy, release 1.10.1 (BSD-3-Clause): a case in which the naive product of
    /// singular vectors is a reflection. Read, not from memory. A = R·B to 1e-6.
    /// </summary>
    public static readonly (Vector3[] A, Vector3[] B) Improper = (
        [new(0.89299824, -0.44372674, 0.0752378), new(0.60221789, -0.47564102, -0.6411702)],
        [new(0.02386536, -0.82176463, 0.5693271), new(-0.27654929, -0.95191427, -0.1318321)]);

    public static TheoryData<string> Ids => new(Read.Cases.Select(c => c.Id));

    public static TheoryData<string> RefusedIds => new(Read.Refused.Select(c => c.Id));

    public static Case Of(string id) => Read.Cases.Single(c => c.Id == id);

    public static RefusedCase Refused(string id) => Read.Refused.Single(c => c.Id == id);

    /// <summary>Millimetres to metres.</summary>
    public static Vector3[] Metres(double[][] rows) => [.. rows.Select(Metres)];

    public static Vector3 Metres(double[] row) => new(row[0] / 1000, row[1] / 1000, row[2] / 1000);

    public sealed record Case(
        string Id, double[][] Model, double[][] Measured, double[]? Weights, double[][] Matrix, double[] Translation, double[] Quaternion, double[][] Residuals,
        double SumOfSquares, double Rms, double Worst, int Freedom, double Sigma, double[][] Covariance);

    public sealed record RefusedCase(string Id, double[][] Model, double[][] Measured, string? Fault);

    private sealed record Table(Case[] Cases, RefusedCase[] Refused);
}

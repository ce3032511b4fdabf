using CsCheck;
using Stockseat.Seating.Frames;

namespace Stockseat.Seating.Tests.Fitting;

/// <summary>Random inputs that a fit may meet. Metres.</summary>
internal static class Any
{
    private static readonly Gen<Vector3> Unit = Gen.Select(Gen.Double[-1, 1], Gen.Double[-1, 1], Gen.Double[-1, 1], (x, y, z) => new Vector3(x, y, z));

    internal static readonly Gen<Pose> Motion = Gen.Select(Unit, Unit.Where(v => v.Length > 0.01), Gen.Double[-Math.PI, Math.PI], (at, axis, angle) =>
        new Pose(3 * at, Rotation.FromAxisAngle(axis, angle)));

    /// <summary>Six points that determine every turn: three at a right angle, and three anywhere within half a metre.</summary>
    internal static readonly Gen<Vector3[]> Points = Unit.Array[3].Select(any =>
        (Vector3[])[new(0, 0, 0), new(0.3, 0, 0), new(0, 0.2, 0), .. any.Select(v => 0.5 * v)]);

    /// <summary>Displacements of six points, up to 50 µm in each direction.</summary>
    internal static readonly Gen<Vector3[]> Noise = Unit.Array[6].Select(any => any.Select(v => 5e-5 * v).ToArray());

    /// <summary>Normal scatter of one touch, in metres along each axis.</summary>
    internal static Vector3 Scatter(Random random, double sigma) => new(sigma * Normal(random), sigma * Normal(random), sigma * Normal(random));

    /// <summary>The Box-Muller transform.</summary>
    private static double Normal(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}

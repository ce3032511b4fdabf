using Stockseat.Seating.Frames;
using Stockseat.Seating.Tests.Published;

namespace Stockseat.Seating.Tests.Frames;

public class RotationTests
{
    private const double Degrees = Math.PI / 180;

    [Theory]
    [MemberData(nameof(IntrinsicZyx.Numbers), MemberType = typeof(IntrinsicZyx))]
    public void FromIntrinsicZyx_GivesThePublishedQuaternion(int number)
    {
        var row = IntrinsicZyx.Of(number);
        SameQuaternion(row.Quaternion, Zyx(row.ZyxDegrees), 1e-15);
    }

    [Theory]
    [MemberData(nameof(IntrinsicZyx.Numbers), MemberType = typeof(IntrinsicZyx))]
    public void Apply_AgreesWithThePublishedMatrix(int number)
    {
        var row = IntrinsicZyx.Of(number);
        var matrix = row.Matrix.SelectMany(r => r).ToArray();
        SameMatrix(matrix, Zyx(row.ZyxDegrees).Apply, 1e-15);
        SameMatrix(matrix, From(row.Quaternion).Apply, 1e-15);
    }

    [Theory]
    [MemberData(nameof(IntrinsicZyx.Numbers), MemberType = typeof(IntrinsicZyx))]
    public void ApplyInverse_AgreesWithThePublishedMatrixTransposed(int number)
    {
        var row = IntrinsicZyx.Of(number);
        var transposed = Enumerable.Range(0, 9).Select(i => row.Matrix[i % 3][i / 3]).ToArray();
        SameMatrix(transposed, Zyx(row.ZyxDegrees).ApplyInverse, 1e-15);
    }

    [Theory]
    [MemberData(nameof(IntrinsicZyx.Numbers), MemberType = typeof(IntrinsicZyx))]
    public void FromAxisAngle_GivesThePublishedRotationVector(int number)
    {
        var row = IntrinsicZyx.Of(number);
        var vector = Of(row.RotationVector);
        if (vector.Length == 0)
        {
            Assert.Throws<ArgumentOutOfRangeException>(() => Rotation.FromAxisAngle(vector, 0));
            return;
        }

        SameQuaternion(row.Quaternion, Rotation.FromAxisAngle(vector, vector.Length), 1e-15);
    }

    [Theory]
    [MemberData(nameof(IntrinsicZyx.Numbers), MemberType = typeof(IntrinsicZyx))]
    public void FromAxes_OfThePublishedMatrix_GivesThePublishedQuaternion(int number)
    {
        var row = IntrinsicZyx.Of(number);
        Vector3 Column(int j) => new(row.Matrix[0][j], row.Matrix[1][j], row.Matrix[2][j]);
        SameQuaternion(row.Quaternion, Rotation.FromAxes(Column(0), Column(1), Column(2)), 1e-15);
    }

    /// <summary>Extrinsic z, y, x is the inverse of intrinsic Z-Y-X by the opposite angles, and not intrinsic Z-Y-X by the same angles.</summary>
    [Theory]
    [MemberData(nameof(ScipyRotations.ExtrinsicZyx), MemberType = typeof(ScipyRotations))]
    public void ExtrinsicZyx_IsTheInverseOfIntrinsicZyxByTheOppositeAngles(double[] degrees, double[] quaternion, double[] oneTwoThree)
    {
        var opposite = Zyx([-degrees[0], -degrees[1], -degrees[2]]);
        SameQuaternion(quaternion, Rotation.FromQuaternion(opposite.W, -opposite.X, -opposite.Y, -opposite.Z), 5e-9);
        Close.To(Of(oneTwoThree), opposite.ApplyInverse(new(1, 2, 3)), 5e-9);
        Close.To(Of(oneTwoThree), Chain("zyx", degrees)(new(1, 2, 3)), 5e-9);
    }

    [Fact]
    public void ExtrinsicAndIntrinsicZyx_DifferWhenMoreThanOneAngleIsNotZero() =>
        Assert.True((Zyx([45, 60, 30]).Apply(new(1, 2, 3)) - new Vector3(2.24452282, 0.78093109, 2.89002836)).Length > 1);

    [Theory]
    [MemberData(nameof(ScipyRotations.Chains), MemberType = typeof(ScipyRotations))]
    public void TurnsAboutFixedAxes_GiveThePublishedMatrix(string axes, double[] degrees, double[] matrix) =>
        SameMatrix(matrix, Chain(axes, degrees), 6e-8);

    [Theory]
    [MemberData(nameof(ScipyRotations.Matrices), MemberType = typeof(ScipyRotations))]
    public void AQuaternionOfAnyLength_GivesThePublishedMatrix(double[] quaternion, double[] matrix) =>
        SameMatrix(matrix, From(quaternion).Apply, 6e-8);

    [Theory]
    [MemberData(nameof(ScipyRotations.Vectors), MemberType = typeof(ScipyRotations))]
    public void ARotationVector_GivesThePublishedQuaternion(double[] vector, double[] quaternion)
    {
        var length = Math.Sqrt(quaternion.Sum(q => q * q));
        SameQuaternion(quaternion.Select(q => q / length).ToArray(), Rotation.FromAxisAngle(Of(vector), Of(vector).Length), 6e-8);
    }

    [Fact]
    public void TwoTurns_TakeAVectorToItsPublishedPlace()
    {
        var first = Rotation.FromAxisAngle(new(0, 0, 1), Math.PI / 2);
        var second = Rotation.FromAxisAngle(new(1, 0, 0), Math.PI / 4);
        Close.To(Of(ScipyRotations.Composition), second.Apply(first.Apply(new(1, 2, 3))), 5e-9);
    }

    [Theory]
    [MemberData(nameof(GohlkeTransformations.AboutAnAxis), MemberType = typeof(GohlkeTransformations))]
    public void ATurnAboutAnAxis_GivesThePublishedQuaternion(double[] axis, double angle, double[] quaternion, double tolerance) =>
        SameQuaternion(quaternion, Rotation.FromAxisAngle(Of(axis), angle), tolerance);

    [Fact]
    public void IntrinsicYxz_GivesThePublishedQuaternion()
    {
        var intrinsic = Chain("zxy", [3 / Degrees, 2 / Degrees, 1 / Degrees]);
        var published = From(GohlkeTransformations.IntrinsicYxz);
        foreach (var axis in Axes)
        {
            Close.To(published.Apply(axis), intrinsic(axis), 2e-6);
        }
    }

    [Fact]
    public void StaticYxz_HasThePublishedFirstRow() =>
        Close.To(GohlkeTransformations.FirstRowOfStaticYxz, Chain("yxz", [1 / Degrees, 2 / Degrees, 3 / Degrees])(new(1, 1, 1)).X, 1e-8); // printed truncated

    [Fact]
    public void AQuaternionOfLengthOne_KeepsEveryBit()
    {
        var rotation = Rotation.FromQuaternion(0.5, -0.5, 0.5, -0.5);
        Assert.Equal((0.5, -0.5, 0.5, -0.5), (rotation.W, rotation.X, rotation.Y, rotation.Z));
    }

    [Theory]
    [InlineData(0, 0, 0, 0)]
    [InlineData(double.NaN, 0, 0, 1)]
    [InlineData(1, double.PositiveInfinity, 0, 0)]
    [InlineData(1, 0, 0, double.NegativeInfinity)]
    public void AQuaternionWithoutALength_Throws(double w, double x, double y, double z) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Rotation.FromQuaternion(w, x, y, z));

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    public void AnAxisWithoutALength_Throws(double radians) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Rotation.FromAxisAngle(default, radians));

    /// <summary>A struct always has a default, wanted or not: it must turn nothing.</summary>
    [Fact]
    public void TheDefault_TurnsNothing() => Assert.Equal(new Vector3(1, 2, 3), default(Rotation).Apply(new(1, 2, 3)));

    private static readonly Vector3[] Axes = [new(1, 0, 0), new(0, 1, 0), new(0, 0, 1)];

    private static Rotation Zyx(double[] degrees) =>
        Rotation.FromIntrinsicZyx(degrees[0] * Degrees, degrees[1] * Degrees, degrees[2] * Degrees);

    private static Rotation From(double[] wxyz) => Rotation.FromQuaternion(wxyz[0], wxyz[1], wxyz[2], wxyz[3]);

    private static Vector3 Of(double[] xyz) => new(xyz[0], xyz[1], xyz[2]);

    /// <summary>Turns about fixed axes, in the order in which they act on the vector.</summary>
    private static Func<Vector3, Vector3> Chain(string axes, double[] degrees) => v =>
    {
        for (var i = 0; i < axes.Length; i++)
        {
            v = Rotation.FromAxisAngle(Axes[axes[i] - 'x'], degrees[i] * Degrees).Apply(v);
        }

        return v;
    };

    private static void SameMatrix(double[] rows, Func<Vector3, Vector3> apply, double tolerance)
    {
        for (var column = 0; column < 3; column++)
        {
            Close.To(new Vector3(rows[column], rows[3 + column], rows[6 + column]), apply(Axes[column]), tolerance);
        }
    }

    /// <summary>q and −q are the same rotation.</summary>
    private static void SameQuaternion(double[] wxyz, Rotation actual, double tolerance)
    {
        var sign = wxyz[0] * actual.W + wxyz[1] * actual.X + wxyz[2] * actual.Y + wxyz[3] * actual.Z < 0 ? -1 : 1;
        Close.To(wxyz[0], sign * actual.W, tolerance);
        Close.To(new Vector3(wxyz[1], wxyz[2], wxyz[3]), new Vector3(sign * actual.X, sign * actual.Y, sign * actual.Z), tolerance);
    }
}

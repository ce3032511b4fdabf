using CsCheck;
using Stockseat.Seating.Frames;

namespace Stockseat.Seating.Tests.Frames;

public class CorrectionTests
{
    private static readonly Gen<Vector3> Vectors = Gen.Select(Gen.Double[-1, 1], Gen.Double[-1, 1], Gen.Double[-1, 1], (x, y, z) => new Vector3(x, y, z));

    private static readonly Gen<Rotation> Rotations = Gen.Select(Vectors, Gen.Double[-3.1, 3.1])
        .Where((axis, _) => axis.Length > 0.1).Select((axis, angle) => Rotation.FromAxisAngle(axis, angle));

    private static readonly Gen<PlanVector> Shifts = Gen.Select(Gen.Double[-0.05, 0.05], Gen.Double[-0.05, 0.05], (u, v) => new PlanVector(u, v));

    /// <summary>A tool that points down: the taught orientation is turned by 180° about base x, so its y and z are opposite to the base's.</summary>
    [Fact]
    public void TheTwoShifts_AreOneVectorInTwoFrames()
    {
        Assert.True(PlanFrame.TryCreate(new(0, 1, 0), new(0, 0, 1), out var frame));
        var taught = new Pose(new(0.4123, -0.205, 0.118), Rotation.FromQuaternion(0, 1, 0, 0));
        var correction = Correction.Of(taught, frame, new(0.125, 0.130, 0), new(0.001, 0.00625));
        Assert.Equal(new Vector3(0.001, 0.00625, 0), correction.ShiftBase);
        Assert.Equal(new Vector3(0.001, -0.00625, 0), correction.ShiftOrigin);
        Close.To(new Vector3(0.5383, -0.06875, 0.118), correction.Pose.PositionMetres, 1e-15);
        Assert.Equal(taught.Orientation, correction.Pose.Orientation);
    }

    [Fact]
    public void NothingIsCorrected_OutOfThePlan() => Gen.Select(Rotations, Shifts).Sample((turn, shift) =>
    {
        Assert.True(PlanFrame.TryCreate(turn.Apply(new(0, 1, 0)), turn.Apply(new(0, 0, 1)), out var frame));
        var correction = Correction.Of(new(default, Rotation.Identity), frame, default, shift);
        Close.To(0, Vector3.Dot(frame.W, correction.ShiftBase), 1e-15);
        Close.To(shift.Length, correction.ShiftBase.Length, 1e-15);
    });

    /// <summary>Moving the base moves the answer with it; in the origin's own axes nothing changes.</summary>
    [Fact]
    public void ARigidMotionOfBase_MovesTheCorrectionWithIt() =>
        Gen.Select(Rotations, Rotations, Rotations, Vectors, Vectors, Gen.Select(Vectors, Shifts)).Sample((motion, plan, tool, moved, taught, rest) =>
        {
            var (offset, shift) = rest;
            Assert.True(PlanFrame.TryCreate(plan.Apply(new(0, 1, 0)), plan.Apply(new(0, 0, 1)), out var frame));
            Assert.True(PlanFrame.TryCreate(motion.Apply(frame.V), motion.Apply(frame.W), out var movedFrame));

            var before = Correction.Of(new(taught, tool), frame, offset, shift);
            var after = Correction.Of(
                new(motion.Apply(taught) + moved, Product(motion, tool)), movedFrame, motion.Apply(offset), shift);

            Close.To(motion.Apply(before.ShiftBase), after.ShiftBase, 1e-14);
            Close.To(before.ShiftOrigin, after.ShiftOrigin, 1e-14);
            Close.To(motion.Apply(before.Pose.PositionMetres) + moved, after.Pose.PositionMetres, 1e-14);
        });

    /// <summary>The quaternion product a·b, as Hamilton defined it.</summary>
    private static Rotation Product(Rotation a, Rotation b) => Rotation.FromQuaternion(
        a.W * b.W - a.X * b.X - a.Y * b.Y - a.Z * b.Z,
        a.W * b.X + a.X * b.W + a.Y * b.Z - a.Z * b.Y,
        a.W * b.Y - a.X * b.Z + a.Y * b.W + a.Z * b.X,
        a.W * b.Z + a.X * b.Y - a.Y * b.X + a.Z * b.W);
}

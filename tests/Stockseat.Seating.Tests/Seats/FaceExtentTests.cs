using Stockseat.Seating.Frames;
using Stockseat.Seating.Locators;
using Stockseat.Seating.Seats;

namespace Stockseat.Seating.Tests.Seats;

/// <summary>
/// Where a contact may lie on a face. Expected positions follow from the right triangles of the 3-4-5 vee: tan of the half-angle is 3/4, so a contact lies
/// R·4/3 from the apex.
/// </summary>
public class FaceExtentTests
{
    private static readonly double HalfAngle = Math.Atan2(3, 4);

    [Theory]
    [InlineData(0.039, 0.041, SeatFault.None)]
    [InlineData(0.0399, 0.0401, SeatFault.None)]
    [InlineData(0.0401, 0.08, SeatFault.ContactOffFace)]
    [InlineData(0, 0.0399, SeatFault.ContactOffFace)]
    [InlineData(-0.08, 0, SeatFault.ContactOffFace)]
    public void AVeesContact_MustLieBetweenItsEnds(double from, double to, SeatFault expected) =>
        Assert.Equal(expected, SeatSolver.TrySeat(Nest.Vee(2 * HalfAngle, from, to), 0.030, out _));

    [Fact]
    public void AnAbsentEnd_IsUnlimited()
    {
        var inf = double.PositiveInfinity;
        Assert.Equal(SeatFault.None, SeatSolver.TrySeat(Nest.Vee(2 * HalfAngle), 1000, out _));
        Assert.Equal(SeatFault.None, SeatSolver.TrySeat(Nest.Vee(2 * HalfAngle, 0.001), 1000, out _));
        Assert.Equal(SeatFault.None, SeatSolver.TrySeat(Nest.Vee(2 * HalfAngle, -inf, 0.05), 0.03, out _));
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void OneFaceTooShort_IsEnoughToRefuse(bool first)
    {
        Locator Face(double normal, bool isShort) => Locator.Face(default, normal, 0, isShort ? 0.0399 : 0.0401);
        var nest = new Nest(Face(HalfAngle, first), Face(Math.PI - HalfAngle, !first));
        Assert.Equal(SeatFault.ContactOffFace, SeatSolver.TrySeat(nest, 0.030, out _));
    }

    [Fact]
    public void AContactExactlyAtAnEnd_IsOnTheFace()
    {
        var nest = Nest.Vee(2 * HalfAngle);
        var seat = SeatOf.Stock(nest, 0.030);
        var along = PlanVector.Dot(nest.Second.Along, seat.Centre - 0.030 * seat.SecondNormal);
        Close.To(0.040, along, 1e-15);
        Assert.Equal(SeatFault.None, SeatSolver.TrySeat(At(along, 2), 0.030, out _));
        Assert.Equal(SeatFault.None, SeatSolver.TrySeat(At(0, along), 0.030, out _));
        Assert.Equal(SeatFault.ContactOffFace, SeatSolver.TrySeat(At(Math.BitIncrement(along), 2), 0.030, out _));
        Assert.Equal(SeatFault.ContactOffFace, SeatSolver.TrySeat(At(0, Math.BitDecrement(along)), 0.030, out _));

        Nest At(double from, double to) => nest with { Second = Locator.Face(default, Math.PI - HalfAngle, from, to) };
    }

    [Theory]
    [InlineData(30)]
    [InlineData(60)]
    [InlineData(120)]
    [InlineData(150)]
    public void TheExtentOfASlantingFace_IsCountedTowardsV(double normalDegrees) =>
        Assert.True(Locator.Face(default, normalDegrees * Math.PI / 180).Along.V > 0);

    [Theory]
    [InlineData(90)]
    [InlineData(-90)]
    [InlineData(270)]
    public void TheExtentOfAFaceAlongU_IsCountedTowardsU(double normalDegrees) =>
        Close.To(new PlanVector(1, 0), Locator.Face(default, normalDegrees * Math.PI / 180).Along, 1e-12);

    [Fact]
    public void AStandOff_DoesNotNeedTheFace() =>
        Assert.Equal(SeatFault.None, SeatSolver.TryClear(Nest.Vee(2 * HalfAngle, 0, 0.0399), 0.030, 0.001, out _));

    [Theory]
    [InlineData(0.0319, SeatFault.ContactOffFace)]
    [InlineData(0.0321, SeatFault.None)]
    public void TheFaceBesideAPin_IsCheckedToo(double to, SeatFault expected)
    {
        // The touching pair 9 and 16 lies 24 apart along the face: 2·sqrt(9·16). The face begins 8 beyond its stated point.
        var (sin, cos) = Math.SinCos(Math.PI / 6);
        var pin = new PlanVector(-0.009 * cos, 0.009 * sin);
        var along = new PlanVector(sin, cos);
        var face = Locator.Face(-0.008 * along, Math.PI * 5 / 6, 0, to);
        Assert.Equal(expected, SeatSolver.TrySeat(new(Locator.Pin(pin, 0.009), face), 0.016, out _));
        Assert.Equal(expected, SeatSolver.TrySeat(new(face, Locator.Pin(pin, 0.009)), 0.016, out _));
    }
}

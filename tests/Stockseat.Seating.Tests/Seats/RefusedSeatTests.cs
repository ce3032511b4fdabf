using Stockseat.Seating.Frames;
using Stockseat.Seating.Locators;
using Stockseat.Seating.Seats;
using Stockseat.Seating.Tests.Published;

namespace Stockseat.Seating.Tests.Seats;

/// <summary>The rows E1 to E9 of <see cref="EdgeCases"/>, but for E5 and E6, of which it says why; and more nests without a seat.</summary>
public class RefusedSeatTests
{
    private static readonly Nest TwentyApart = EdgeCases.TwentyApart;

    [Fact]
    public void E1_StockSmallerThanTheGap_DropsThrough() =>
        Assert.Equal(SeatFault.NoContact, SeatSolver.TrySeat(TwentyApart, EdgeCases.Radius(EdgeCases.E1Diameter), out _));

    [Fact]
    public void E2_StockAsWideAsTheGap_IsRefused() =>
        Assert.Equal(SeatFault.NoContact, SeatSolver.TrySeat(TwentyApart, EdgeCases.Radius(EdgeCases.E2Diameter), out _));

    [Fact]
    public void E3_StockJustWiderThanTheGap_SeatsWithAHighSensitivity()
    {
        var (diameter, v, perRadius) = EdgeCases.E3;
        var seat = SeatOf.Stock(TwentyApart, EdgeCases.Radius(diameter));
        Close.To(v, 1000 * seat.Centre.V, 1e-9);
        Close.To(perRadius, seat.PerRadius.V, 1e-9);
    }

    [Fact]
    public void E4_StockThatWouldRollOffTheLowerPin_IsNotHeld() =>
        Assert.Equal(SeatFault.NotHeld, SeatSolver.TrySeat(EdgeCases.E4.Nest, EdgeCases.Radius(EdgeCases.E4.Diameter), out _));

    [Fact]
    public void E7_StockSmallerThanTheGapFromPinToFace_DropsThrough() =>
        Assert.Equal(SeatFault.NoContact, SeatSolver.TrySeat(EdgeCases.E7.Nest, EdgeCases.Radius(EdgeCases.E7.Diameter), out _));

    [Theory]
    [MemberData(nameof(EdgeCases.E8Diameters), MemberType = typeof(EdgeCases))]
    public void E8_ARadiusThatIsNotPositive_Throws(double diameter) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => SeatSolver.TrySeat(TwentyApart, EdgeCases.Radius(diameter), out _));

    [Theory]
    [InlineData(-1e-9)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void ANegativeOrNonFiniteStandOff_Throws(double standOff) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => SeatSolver.TryClear(TwentyApart, 0.02, standOff, out _));

    [Theory]
    [MemberData(nameof(EdgeCases.E9Faces), MemberType = typeof(EdgeCases))]
    public void E9_AContactBeyondTheFace_IsRefused(double toMillimetres, SeatFault expected)
    {
        var nest = Nest.Vee(Math.PI / 3, 0, toMillimetres / 1000);
        Assert.Equal(expected, SeatSolver.TrySeat(nest, EdgeCases.Radius(EdgeCases.E9Diameter), out _));
    }

    [Fact]
    public void ARefusal_LeavesNoSeatBehind()
    {
        SeatSolver.TrySeat(TwentyApart, 29.9 / 2000, out var dropped);
        SeatSolver.TrySeat(new(Pin(-10, 0, 3), Pin(10, 25, 3)), 0.020, out var notHeld);
        SeatSolver.TrySeat(Nest.Vee(Math.PI / 3, 0, 0.020), 25.4 / 2000, out var offFace);
        Assert.Equal(default, dropped);
        Assert.Equal(default, notHeld);
        Assert.Equal(default, offFace);
    }

    [Fact]
    public void ParallelFaces_HaveNoSeat()
    {
        var facing = new Nest(Locator.Face(new(-0.02, 0), 0), Locator.Face(new(0.02, 0), Math.PI));
        Assert.Equal(SeatFault.NoContact, SeatSolver.TrySeat(facing, 0.02, out _));
        Assert.Equal(SeatFault.NoContact, SeatSolver.TrySeat(facing, 0.01, out _));
    }

    [Fact]
    public void TheSamePinTwice_HasNoSeat()
    {
        var pin = Pin(0, 0, 5);
        Assert.Equal(SeatFault.NoContact, SeatSolver.TrySeat(new(pin, pin), 0.02, out _));
    }

    [Fact]
    public void PinsAboveEachOther_DoNotHoldStock() =>
        Assert.Equal(SeatFault.NotHeld, SeatSolver.TrySeat(new(Pin(0, 0, 5), Pin(0, 30, 5)), 0.02, out _));

    [Fact]
    public void PinsOnOneSideOfTheSeat_DoNotHoldStock() =>
        Assert.Equal(SeatFault.NotHeld, SeatSolver.TrySeat(new(Pin(10, 0, 5), Pin(30, 40, 5)), 0.02, out _));

    [Fact]
    public void AVeeUpsideDown_DoesNotHoldStock()
    {
        var roof = new Nest(Locator.Face(default, -Math.PI / 4), Locator.Face(default, -Math.PI * 3 / 4));
        Assert.Equal(SeatFault.NotHeld, SeatSolver.TrySeat(roof, 0.02, out _));
    }

    private static Locator Pin(double u, double v, double radius) => Locator.Pin(new PlanVector(u / 1000, v / 1000), radius / 1000);
}

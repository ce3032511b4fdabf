using Stockseat.Seating.Frames;
using Stockseat.Seating.Locators;
using Stockseat.Seating.Seats;

namespace Stockseat.Seating.Tests.Seats;

/// <summary>
/// The edge cases of the external check set, rows E1 to E9 (computed with mpmath, 60 digits; numbers of our own making), in millimetres.
/// Not here: E5, overlapping pins: two such circles do seat stock, and it is the fixture revision that refuses them; E6: see SeatPropertyTests.
/// </summary>
public class RefusedSeatTests
{
    private static readonly Nest TwentyApart = new(Pin(-20, 0, 5), Pin(20, 0, 5));

    [Fact]
    public void E1_StockSmallerThanTheGap_DropsThrough() =>
        Assert.Equal(SeatFault.NoContact, SeatSolver.TrySeat(TwentyApart, 29.9 / 2000, out _));

    [Fact]
    public void E2_StockAsWideAsTheGap_IsRefused() =>
        Assert.Equal(SeatFault.NoContact, SeatSolver.TrySeat(TwentyApart, 30.0 / 2000, out _));

    [Fact]
    public void E3_StockJustWiderThanTheGap_SeatsWithAHighSensitivity()
    {
        var seat = SeatOf.Stock(TwentyApart, 30.02 / 2000);
        Close.To(0.6325345840347387, 1000 * seat.Centre.V, 1e-9);
        Close.To(31.63463390786084, seat.PerRadius.V, 1e-9);
    }

    [Fact]
    public void E4_StockThatWouldRollOffTheLowerPin_IsNotHeld() =>
        Assert.Equal(SeatFault.NotHeld, SeatSolver.TrySeat(new(Pin(-10, 0, 3), Pin(10, 25, 3)), 0.020, out _));

    [Fact]
    public void E7_StockSmallerThanTheGapFromPinToFace_DropsThrough()
    {
        var nest = new Nest(Pin(-40, 0, 5), Locator.Face(new(0.010, 0), Math.PI * 160 / 180));
        Assert.Equal(SeatFault.NoContact, SeatSolver.TrySeat(nest, 0.010, out _));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(double.NegativeInfinity)]
    public void E8_ARadiusThatIsNotPositive_Throws(double radius) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => SeatSolver.TrySeat(TwentyApart, radius, out _));

    [Theory]
    [InlineData(-1e-9)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void ANegativeOrNonFiniteStandOff_Throws(double standOff) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => SeatSolver.TryClear(TwentyApart, 0.02, standOff, out _));

    [Theory]
    [InlineData(20, SeatFault.ContactOffFace)]
    [InlineData(21.997, SeatFault.ContactOffFace)]
    [InlineData(21.998, SeatFault.None)]
    public void E9_AContactBeyondTheFace_IsRefused(double toMillimetres, SeatFault expected)
    {
        // The contact is R / tan 30° = 21.997045… mm up the face.
        var nest = Nest.Vee(Math.PI / 3, 0, toMillimetres / 1000);
        Assert.Equal(expected, SeatSolver.TrySeat(nest, 25.4 / 2000, out _));
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

using CsCheck;
using Stockseat.Seating.Frames;
using Stockseat.Seating.Locators;
using Stockseat.Seating.Seats;

namespace Stockseat.Seating.Tests.Seats;

/// <summary>Properties of every nest. Metres.</summary>
public class SeatPropertyTests
{
    [Fact]
    public void TheMirroredNest_MirrorsTheSeat() => AnyNest.Holding(10).Sample((nest, radius) =>
    {
        var seat = SeatOf.Stock(nest, radius);
        var mirrored = SeatOf.Stock(AnyNest.Mirrored(nest), radius);
        Close.To(new PlanVector(-seat.Centre.U, seat.Centre.V), mirrored.Centre, 1e-12);
        Close.To(new PlanVector(-seat.PerRadius.U, seat.PerRadius.V), mirrored.PerRadius, 1e-9);
        Close.To(seat.HeldRadians, mirrored.HeldRadians, 1e-9);
    }, iter: 500);

    [Fact]
    public void SwappedLocators_ChangeNothingButTheirOrder() => AnyNest.Holding(10).Sample((nest, radius) =>
    {
        var seat = SeatOf.Stock(nest, radius);
        var swapped = SeatOf.Stock(new(nest.Second, nest.First), radius);
        Close.To(seat.Centre, swapped.Centre, 1e-12);
        Close.To(seat.FirstNormal, swapped.SecondNormal, 1e-9);
        Close.To(seat.SecondNormal, swapped.FirstNormal, 1e-9);
        Close.To(seat.PerRadius, swapped.PerRadius, 1e-9);
    }, iter: 500);

    [Fact]
    public void SwappedLocators_KeepTheFault() => AnyNest.WithARadius.Sample((nest, radius) =>
    {
        var fault = SeatSolver.TrySeat(nest, radius, out var seat);
        if (fault != SeatFault.None || seat.Sensitivity < 1000)
        {
            Assert.Equal(fault, SeatSolver.TrySeat(new(nest.Second, nest.First), radius, out _));
        }
    }, iter: 500);

    [Fact]
    public void AMovedNest_MovesTheSeatWithIt() =>
        Gen.Select(AnyNest.Holding(10), Gen.Double[-1, 1], Gen.Double[-1, 1]).Sample((holding, u, v) =>
        {
            var moved = new PlanVector(u, v);
            Locator Move(Locator l) => l.Kind == LocatorKind.Pin
                ? Locator.Pin(l.Point + moved, l.RadiusMetres)
                : Locator.Face(l.Point + moved, Math.Atan2(l.Normal.V, l.Normal.U));
            var (nest, radius) = holding;
            Close.To(SeatOf.Stock(nest, radius).Centre + moved, SeatOf.Stock(new(Move(nest.First), Move(nest.Second)), radius).Centre, 1e-11);
        }, iter: 500);

    [Fact]
    public void ThickerStock_SeatsHigher() =>
        Gen.Select(AnyNest.Holding(10), Gen.Double[1e-6, 1e-4]).Sample((holding, thicker) =>
        {
            var (nest, radius) = holding;
            var thin = SeatOf.Stock(nest, radius).Centre;
            Assert.True(SeatSolver.TrySeat(nest, radius + thicker, out var thick) != SeatFault.None || thick.Centre.V > thin.V + thicker / 2);
        }, iter: 500);

    [Fact]
    public void InASymmetricNest_TheSeatClimbsTheSeatAxisWithTheDiameter() =>
        Gen.Select(Gen.Bool, Gen.Double[0.1, 3], Gen.Double[0.002, 0.1], Gen.Double[0, 0.1], Gen.Double[1e-6, 0.01])
            .Sample((isVee, included, pin, radius, thicker) =>
        {
            // Pins: spaced so that stock with the pin's radius or more does not pass between them.
            var nest = isVee ? Nest.Vee(included) : Nest.Pins(2.4 * pin, pin);
            var thin = SeatOf.Stock(nest, radius + pin).Centre;
            var thick = SeatOf.Stock(nest, radius + pin + thicker).Centre;
            Close.To(0, thin.U, 1e-12);
            Close.To(0, thick.U, 1e-12);
            Assert.True(thick.V - thin.V >= 0.999 * thicker);
        }, iter: 500);

    [Fact]
    public void TheSensitivity_IsTheNumericDerivative() => AnyNest.Holding(5).Sample((nest, radius) =>
    {
        var h = 1e-6 * radius;
        if (SeatSolver.TrySeat(nest, radius - h, out var less) != SeatFault.None || SeatSolver.TrySeat(nest, radius + h, out var more) != SeatFault.None)
        {
            return;
        }

        var seat = SeatOf.Stock(nest, radius);
        Close.To(1 / (2 * h) * (more.Centre - less.Centre), seat.PerRadius, 1e-6);
        Close.To(seat.PerRadius.Length, seat.Sensitivity, 1e-15);
    }, iter: 500);

    /// <summary>Two locator moves and a change of the radius at once: N·dC = 1·dR + e, compared with the nest seated again.</summary>
    [Fact]
    public void Solve_PredictsTheEffectOfMovedLocators() =>
        Gen.Select(AnyNest.Holding(5), Gen.Double[-1, 1].Array[4]).Sample((holding, moves) =>
        {
            const double Small = 1e-7;
            var (nest, radius) = holding;
            var seat = SeatOf.Stock(nest, radius);
            var (first, e1) = Disturbed(nest.First, seat.FirstNormal, seat.Centre, Small * moves[0], moves[1]);
            var (second, e2) = Disturbed(nest.Second, seat.SecondNormal, seat.Centre, Small * moves[2], moves[3]);
            if (SeatSolver.TrySeat(new(first, second), radius + Small, out var anew) == SeatFault.None)
            {
                // To first order: what is left is of second order, Small squared over a curvature of millimetres.
                Close.To(seat.Solve(Small + e1, Small + e2), anew.Centre - seat.Centre, 2e-9);
            }

            static (Locator Moved, double Offset) Disturbed(Locator l, PlanVector normal, PlanVector centre, double metres, double radians)
            {
                var offset = metres * new PlanVector(Math.Cos(3 * radians), Math.Sin(3 * radians));
                return l.Kind == LocatorKind.Pin
                    ? (Locator.Pin(l.Point + offset, l.RadiusMetres + metres), metres + PlanVector.Dot(normal, offset))
                    : (
                        Locator.Face(l.Point + offset, Math.Atan2(normal.V, normal.U) + metres),
                        PlanVector.Dot(normal, offset) - PlanVector.Dot(normal.Turned, centre - l.Point) * metres);
            }
        }, iter: 500);

    [Fact]
    public void AStandOff_LeavesExactlyThatGapToBothLocators() =>
        Gen.Select(AnyNest.Holding(10), Gen.Double[0, 0.002]).Sample((holding, standOff) =>
        {
            var (nest, radius) = holding;
            if (SeatSolver.TryClear(nest, radius, standOff, out var clear) == SeatFault.None)
            {
                Close.To(standOff, AnyNest.Gap(nest.First, clear.Centre, radius), 1e-14);
                Close.To(standOff, AnyNest.Gap(nest.Second, clear.Centre, radius), 1e-14);
                Assert.Equal(SeatOf.Stock(nest, radius + standOff), clear);
            }
        }, iter: 500);

    /// <summary>What "held" means, without using the cone: from its seat the stock can move nowhere but up.</summary>
    [Fact]
    public void FromItsSeat_StockCanOnlyRise() => AnyNest.Holding(5).Where((nest, radius) => SeatOf.Stock(nest, radius).HeldRadians > 0.05)
        .Sample((nest, radius) => CanOnlyRise(nest, radius), iter: 200);

    /// <summary>
    /// Row E6 of <see cref="Published.EdgeCases"/>: a left half-angle of 50° and a right one of −10°, stock of 20 mm. The row says "no seat", because the load
    /// on the right contact were negative. By the rule of seat-cases.json both loads are positive (sin 80° / sin 40° and 1), and the stock can only move
    /// upwards. So the seat exists. A gripper can't lift stock along v out from under an overhang: refusing that is the job of the fixture's check.
    /// </summary>
    [Fact]
    public void E6_UnderAnOverhang_StockIsStillHeld()
    {
        var (left, right, diameter) = Published.EdgeCases.E6;
        var nest = new Nest(Locator.Face(default, left * Math.PI / 180), Locator.Face(default, (180 - right) * Math.PI / 180));
        CanOnlyRise(nest, Published.EdgeCases.Radius(diameter));
    }

    [Theory]
    [InlineData(60, 60)]
    [InlineData(90, 45)]
    [InlineData(120, 30)]
    public void ASymmetricVee_HoldsByTheComplementOfItsHalfAngle(double includedDegrees, double heldDegrees) =>
        Close.To(heldDegrees * Math.PI / 180, SeatOf.Stock(Nest.Vee(includedDegrees * Math.PI / 180), 0.02).HeldRadians, 1e-12);

    [Fact]
    public void ALopsidedVee_HoldsByItsFlatterFace()
    {
        var nest = new Nest(Locator.Face(default, Math.PI / 4), Locator.Face(default, Math.PI * 145 / 180));
        Close.To(Math.PI / 4, SeatOf.Stock(nest, 0.02).HeldRadians, 1e-12);
        nest = new(Locator.Face(default, Math.PI * 55 / 180), Locator.Face(default, Math.PI * 100 / 180));
        Close.To(Math.PI / 18, SeatOf.Stock(nest, 0.02).HeldRadians, 1e-12);
    }

    private static void CanOnlyRise(Nest nest, double radius)
    {
        var centre = SeatOf.Stock(nest, radius).Centre;
        Close.To(0, AnyNest.Gap(nest.First, centre, radius), 1e-14);
        Close.To(0, AnyNest.Gap(nest.Second, centre, radius), 1e-14);
        var free = 0;
        for (var degrees = 0.5; degrees < 360; degrees++)
        {
            var (sin, cos) = Math.SinCos(degrees * Math.PI / 180);
            var there = centre + 1e-7 * new PlanVector(cos, sin);
            if (AnyNest.Gap(nest.First, there, radius) >= 0 && AnyNest.Gap(nest.Second, there, radius) >= 0)
            {
                free++;
                Assert.True(sin > 0, $"free to move towards {degrees} degrees");
            }
        }

        Assert.True(free > 0);
    }
}

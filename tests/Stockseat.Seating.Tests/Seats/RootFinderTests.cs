using CsCheck;
using MathNet.Numerics.RootFinding;
using Stockseat.Seating.Frames;
using Stockseat.Seating.Locators;
using Stockseat.Seating.Seats;

namespace Stockseat.Seating.Tests.Seats;

/// <summary>
/// The independent oracle: Broyden's method of MathNet.Numerics on the two contact conditions, from many starts, in millimetres.
/// Of the roots, the one that is held is found by balancing the seating force with two pushes.
/// </summary>
public class RootFinderTests
{
    [Fact]
    public void TheSeat_IsTheOneHeldRootOfTheContactConditions()
    {
        var seated = 0;
        var refused = 0;
        AnyNest.WithARadius.Sample((nest, radius) =>
        {
            var fault = SeatSolver.TrySeat(nest, radius, out var seat);
            if (fault == SeatFault.None && (seat.Sensitivity > 10 || seat.HeldRadians < 0.01))
            {
                return; // so steep or so near the edge that the oracle cannot decide
            }

            var held = Roots(nest, radius).Where(root => Pushes(nest, radius, root) is var (first, second) && first > 1e-6 && second > 1e-6).ToList();
            if (fault == SeatFault.None)
            {
                Interlocked.Increment(ref seated);
                Assert.NotEmpty(held);
                Assert.All(held, root => Close.To(root, 1000 * seat.Centre, 1e-8));
            }
            else
            {
                Interlocked.Increment(ref refused);
                Assert.All(held, root => Assert.True(Steep(nest, root), $"held at {root} mm, refused as {fault}"));
            }
        }, iter: 2000);

        // Both sides of the comparison were reached, many times.
        Assert.InRange(seated, 200, 2000);
        Assert.InRange(refused, 200, 2000);
    }

    private static List<PlanVector> Roots(Nest nest, double radius)
    {
        double[] Conditions(double[] c) =>
            [1000 * AnyNest.Gap(nest.First, new(c[0] / 1000, c[1] / 1000), radius), 1000 * AnyNest.Gap(nest.Second, new(c[0] / 1000, c[1] / 1000), radius)];

        var roots = new List<PlanVector>();
        foreach (var pin in new[] { nest.First, nest.Second })
        {
            var reach = 1000 * (radius + pin.RadiusMetres);
            for (var degrees = 0; degrees < 360; degrees += 30)
            {
                var (sin, cos) = Math.SinCos(degrees * Math.PI / 180);
                double[] start = [1000 * pin.Point.U + reach * cos, 1000 * pin.Point.V + reach * sin];
                if (Broyden.TryFindRootWithJacobianStep(Conditions, start, 1e-11, 200, 1e-7, out var root)
                    && Math.Abs(Conditions(root)[0]) + Math.Abs(Conditions(root)[1]) < 1e-9)
                {
                    roots.Add(new(root[0], root[1]));
                }
            }
        }

        return roots;
    }

    /// <summary>The two frictionless pushes that balance a unit force along −v, by Cramer's rule on the contact directions.</summary>
    private static (double First, double Second) Pushes(Nest nest, double radius, PlanVector root)
    {
        var a = Direction(nest.First, root);
        var b = Direction(nest.Second, root);
        var area = a.U * b.V - b.U * a.V;
        return (-b.U / area, a.U / area);
    }

    private static bool Steep(Nest nest, PlanVector root)
    {
        var a = Direction(nest.First, root);
        var b = Direction(nest.Second, root);
        return Math.Abs(a.U * b.V - b.U * a.V) < 1e-3;
    }

    private static PlanVector Direction(Locator locator, PlanVector root)
    {
        var away = root - 1000 * locator.Point;
        return locator.Kind == LocatorKind.Face ? locator.Normal : 1 / away.Length * away;
    }
}

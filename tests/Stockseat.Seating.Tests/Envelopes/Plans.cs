using Stockseat.Seating.Envelopes;
using Stockseat.Seating.Locators;

namespace Stockseat.Seating.Tests.Envelopes;

/// <summary>Plans to start from.</summary>
internal static class Plans
{
    /// <summary>Two pins of 12 mm, 60 mm apart, taught with 80 mm; one nest, nothing else stated.</summary>
    public static Plan Bed => Of(Nest.Pins(0.060, 0.012), 0.080);

    /// <summary>Three jaws, the first towards +v, that open by 12 mm.</summary>
    public static Gripper ThreeJaws => new()
    {
        Jaws = 3, JawWidthMetres = 0.016, JawThicknessMetres = 0.012, ClockingRadians = Math.PI / 2, OpenByMetres = 0.012, StrokeMetres = (0.010, 0.200),
    };

    public static Plan Of(Nest nest, double taughtMetres) =>
        new() { Nest = nest, Taught = SeatOf.Stock(nest, taughtMetres / 2), TaughtDiameterMetres = taughtMetres };

    public static Envelope Solved(Plan plan)
    {
        var envelope = EnvelopeSolver.Solve(plan, out var violated);
        Assert.Null(violated);
        return envelope!;
    }

    public static EnvelopeEnd Violated(Plan plan)
    {
        Assert.Null(EnvelopeSolver.Solve(plan, out var violated));
        Assert.Equal(plan.TaughtDiameterMetres, violated!.DiameterMetres);
        return violated;
    }
}

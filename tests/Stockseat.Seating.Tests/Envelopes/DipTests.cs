using Stockseat.Seating.Envelopes;
using Stockseat.Seating.Frames;
using Stockseat.Seating.Locators;

namespace Stockseat.Seating.Tests.Envelopes;

/// <summary>
/// In a 60° vee v = D, so a jaw that points along u rises by twice the distance that it moves outward. Its inner upper corner passes a needle that stands a
/// little further outward: the jaw's upper side rises over the needle, and then its inner side moves past it. Before and after that the jaw is clear of it.
/// Metres.
/// </summary>
public class DipTests
{
    private const double NeedleRadius = 1e-6;

    /// <summary>The jaw's upper side, 8 mm above the jaw's middle, reaches the needle at 80.03 mm.</summary>
    [Theory]
    [InlineData(20e-6)]
    [InlineData(5e-6)]
    [InlineData(2e-6)]
    public void ADipOfMicrometres_IsFoundFromBelow(double outwardMetres)
    {
        var plan = Plan(0.079, outwardMetres);
        var greatest = Plans.Solved(plan).Greatest;
        Close.To(0.08003, greatest.DiameterMetres, 1e-6);
        Assert.Equal((Constraint.Gap, PartyKind.Jaw, Jaws.Closed, PartyKind.Obstacle), Said(greatest));

        // It is only a dip: no more than 0.1 mm further on, everything is clear again.
        Assert.True(Gaps.At(plan, 0.08013)[0].Metres > 0);
        Assert.True(Gaps.At(plan, 0.07999)[0].Metres > 0);
    }

    /// <summary>From above, the inner side leaves the needle, at R = 40.015 mm + the needle's distance outward + the needle's radius.</summary>
    [Theory]
    [InlineData(20e-6)]
    [InlineData(2e-6)]
    public void ADipOfMicrometres_IsFoundFromAbove(double outwardMetres)
    {
        var least = Plans.Solved(Plan(0.081, outwardMetres)).Least;
        Close.To(2 * (0.040015 + outwardMetres + NeedleRadius), least.DiameterMetres, 1e-6);
        Assert.Equal((Constraint.Gap, PartyKind.Jaw, Jaws.Closed, PartyKind.Obstacle), Said(least));
    }

    [Fact]
    public void ANeedleThatTheCornerMisses_IsNotADip()
    {
        var greatest = Plans.Solved(Plan(0.079, -5e-6)).Greatest;
        Assert.True(greatest.DiameterMetres > 0.0805);
        Assert.Equal(PartyKind.Stock, greatest.Gap!.Value.Mine.Kind);
    }

    /// <summary>
    /// Two pins of 12 mm, 60 mm apart: from 56 mm down to the drop at 48 mm the sensitivity grows from 2.1 without bound, so a wide jaw on top comes down by 20
    /// mm, not by the 12.5 mm that follow from the rate at 56 mm. It meets a post of 30 mm height at v + R = 30 mm, 14 mm further down: √((R + 6)² − 30²) =
    /// 30 − R, R = 24.5 mm.
    /// </summary>
    [Fact]
    public void ARateThatGrowsOnTheWayDown_IsTakenIntoAccount()
    {
        var post = new PlanVector(0.090, 0.025);
        var plan = Plans.Of(Nest.Pins(0.060, 0.012), 0.056) with
        {
            Gripper = Plans.ThreeJaws with { Jaws = 1, JawWidthMetres = 0.200, JawTipHeightMetres = 0.020 },
            LocatorTopMetres = 0.020,
            Obstacles = [new("post", post, post, 0.010, null)],
        };
        Close.To(0.049, Plans.Solved(plan).Least.DiameterMetres, 1e-6);
    }

    private static (Constraint, PartyKind, Jaws, PartyKind) Said(EnvelopeEnd end) =>
        (end.Constraint, end.Gap!.Value.Mine.Kind, end.Gap.Value.Jaws, end.Gap.Value.Theirs.Kind);

    private static Plan Plan(double taught, double outward)
    {
        var needle = new PlanVector(0.040015 + outward, 0.08003 + 0.008 + NeedleRadius);
        return Plans.Of(Nest.Vee(Math.PI / 3), taught) with
        {
            Gripper = Plans.ThreeJaws with { Jaws = 1, ClockingRadians = 0, JawTipHeightMetres = 0.020 },
            LocatorTopMetres = 0.020,
            Obstacles = [new("needle", needle, needle, 2 * NeedleRadius, null)],
        };
    }
}

using Stockseat.Seating.Envelopes;
using Stockseat.Seating.Frames;

namespace Stockseat.Seating.Tests.Envelopes;

/// <summary>Gripped stock is off its locators by the stand-off, and so much closer to what is above it.</summary>
public class GrippedStockTests
{
    /// <summary>√((R + r + g)² − a²) − √((R + r)² − a²) + 2R + gap = pitch: worked out by plane geometry, not by the solver.</summary>
    [Fact]
    public void StockThatWouldBeLiftedIntoTheNestAbove_IsNotAllowed()
    {
        var plan = Plans.Bed with { Rows = 2, RowStep = new(0, 0.110), StandOffMetres = 0.010, GapMetres = 0.002 };
        var end = Plans.Solved(plan).Greatest;

        Assert.Equal((Constraint.Gap, PartyKind.Stock, Jaws.Closed), (end.Constraint, end.Gap!.Value.Mine.Kind, end.Gap.Value.Jaws));
        Assert.Equal(0.110, Lift(end.DiameterMetres / 2) + end.DiameterMetres + 0.002, 1e-6);
        static double Lift(double radius) => Up(radius + 0.010) - Up(radius);
        static double Up(double radius) => Math.Sqrt(((radius + 0.006) * (radius + 0.006)) - (0.030 * 0.030));
    }

    [Fact]
    public void WithoutAStandOff_ItIsWhereItIsSeated() => Assert.DoesNotContain(
        Gaps.At(Plans.Bed with { Rows = 2, RowStep = new PlanVector(0, 0.110) }, 0.080), gap => gap is { Mine.Kind: PartyKind.Stock, Jaws: Jaws.Closed });
}

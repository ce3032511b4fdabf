using CsCheck;
using Stockseat.Seating.Frames;
using Stockseat.Seating.Locators;
using Stockseat.Seating.Seats;
using Stockseat.Seating.Uncertainty;

namespace Stockseat.Seating.Tests.Uncertainty;

public class SeatUncertaintyTests
{
    private static readonly DiameterInputs Exact = DiameterInputs.Stated(Input.Limit(0));
    private static readonly NestOffset There = new(0.6, 0.3, 0);

    /// <summary>
    /// Common practice: moving both pins by the same distance moves the stock by that distance, at any diameter, so it does not affect the shift.
    /// </summary>
    [Fact]
    public void Both_pins_moved_together_cancel_exactly() => Gen.Select(Gen.Double[0.035, 0.06], Gen.Double[-1, 1], Gen.Double[-1, 1]).Sample((radius, u, v) =>
    {
        var (seat, taught) = (Seat(radius), Seat(0.04));
        PlanVector Moved(in Seat s) => s.Solve((s.FirstNormal.U * u) + (s.FirstNormal.V * v), (s.SecondNormal.U * u) + (s.SecondNormal.V * v));

        Assert.Equal(u, Moved(seat).U, 1e-12);
        Assert.Equal(v, Moved(seat).V, 1e-12);
        Assert.Equal(0, (Moved(seat) - Moved(taught)).Length, 1e-12);
    });

    [Fact]
    public void At_the_taught_nest_and_diameter_the_locators_do_not_matter_and_elsewhere_they_do()
    {
        var model = Model(0.04, new() { LocatorDiameter = Input.Limit(1e-4), LocatorPosition = Input.Limit(1e-4) });

        Assert.Equal(default, model.At(default));
        Assert.True(model.At(There) is { Along: > 1e-4, Across: > 1e-4 });
    }

    [Fact]
    public void A_turned_fixture_acts_over_the_distance()
    {
        var model = Model(0.04, new() { FrameAngle = Input.Of(1e-3) });

        Assert.Equal(0, model.At(default).Larger, 1e-15);
        Assert.Equal(2 * 1e-3 * 0.6, model.At(There).Along, 1e-12);
        Assert.Equal(2 * 1e-3 * 0.3, model.At(There).Across, 1e-12);
        Assert.Equal(2 * 1e-3 * 0.45, model.At(new(0, 0, 0.45)).Along, 1e-12); // along a bar: about the other two axes
        Assert.Equal(2 * 1e-3 * 0.45, model.At(new(0, 0, 0.45)).Across, 1e-12);
    }

    [Fact]
    public void The_same_gauge_at_the_taught_diameter_cancels_there_and_helps_elsewhere()
    {
        var gauge = new DiameterInputs(Input.Limit(1e-4), null, null, null, SameGauge: true);
        var other = gauge with { SameGauge = false };

        Assert.Equal(default, Model(0.04, new(), gauge).At(default));
        Assert.True(Model(0.045, new(), gauge).At(default).Along < Model(0.045, new(), other).At(default).Along);
    }

    [Fact]
    public void Nothing_stated_gives_zero_and_stating_more_never_gives_less()
    {
        Assert.Equal(default, Model(0.045, new()).At(There));
        var known = new NestInputs { Seating = Input.Limit(1e-4) };
        var more = known with { Teaching = Input.Limit(1e-4), Robot = Input.Limit(1e-5), Roundness = new(1e-4, Distribution.Arcsine) };
        Assert.True(Model(0.045, more).At(There).Along > Model(0.045, known).At(There).Along);
    }

    [Fact]
    public void A_lean_acts_over_its_height_and_without_a_height_not_at_all()
    {
        Assert.Equal(default, Model(0.045, new() { Lean = Input.Of(0.01) }).At(default));
        Assert.Equal(2 * 0.01 * 0.025, Model(0.045, new() { Lean = Input.Of(0.01), LeanHeightMetres = 0.025 }).At(default).Across, 1e-15);
    }

    [Fact]
    public void A_budget_adds_up()
    {
        var known = new NestInputs
        {
            LocatorDiameter = Input.Limit(2e-5), LocatorPosition = Input.Limit(1e-4), Frame = Input.Of(5e-5), FrameAngle = Input.Limit(3e-4),
            Teaching = Input.Limit(1.5e-4),
            Seating = Input.Limit(1e-4), Robot = Input.Limit(5e-5), TaughtDiameter = Input.Limit(1e-5), Roundness = new(1e-4, Distribution.Arcsine),
            Lean = Input.Limit(0.01), LeanHeightMetres = 0.02,
        };
        var model = Model(0.045, known, new(Input.Limit(3e-5), Input.Step(1e-5), Input.Mean(2e-5, 3), null, false));

        var budget = Budget.Of(model, There);

        Assert.Equal(13, budget.Lines.Count);
        Assert.Equal(model.At(There), budget.Expanded);
        Assert.Equal(budget.Expanded.Along, 2 * Math.Sqrt(budget.Lines.Sum(l => l.ContributionAlongMetres * l.ContributionAlongMetres)), 1e-15);
        Assert.Equal(budget.Expanded.Across, 2 * Math.Sqrt(budget.Lines.Sum(l => l.ContributionAcrossMetres * l.ContributionAcrossMetres)), 1e-15);
        Assert.Equal((1, 1), (Math.Round(budget.Lines.Sum(l => l.ShareAlong), 12), Math.Round(budget.Lines.Sum(l => l.ShareAcross), 12)));
        Assert.All(budget.Lines, l => Assert.Equal(l.Input.Standard * l.SensitivityAlong, l.ContributionAlongMetres, 1e-18));
    }

    private static SeatUncertainty Model(double radius, NestInputs known, DiameterInputs? diameter = null)
    {
        var (seat, taught) = (Seat(radius), Seat(0.04));
        return new(Nest.Pins(0.06, 0.012), seat, taught, known, diameter ?? Exact, seat.Centre - taught.Centre);
    }

    private static Seat Seat(double radius)
    {
        Assert.Equal(SeatFault.None, SeatSolver.TrySeat(Nest.Pins(0.06, 0.012), radius, out var seat));
        return seat;
    }
}

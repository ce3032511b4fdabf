using Stockseat.Seating.Frames;
using Stockseat.Seating.Locators;
using Stockseat.Seating.Seats;
using Stockseat.Seating.Tests.Published;
using Stockseat.Seating.Uncertainty;

namespace Stockseat.Seating.Tests.Uncertainty;

public class PropagationTests
{
    [Fact]
    public void The_end_gauge_of_the_guide_has_its_published_uncertainty()
    {
        var sum = new Propagation();
        foreach (var (standard, sensitivity) in Gum.EndGauge)
        {
            sum.Add(standard, sensitivity, 0);
        }

        Assert.Equal(Gum.EndGaugeCombined, Math.Round(sum.Along));
        Assert.Equal(31.663879111008633, sum.Along, 1e-9); // the components' values before rounding, recomputed with another program
        Assert.Equal(Gum.EndGaugeExpansion, Gum.EndGauge[4].Standard * Gum.EndGauge[4].Sensitivity, 1e-4);
        Assert.Equal(Gum.EndGaugeTemperature, Gum.EndGauge[5].Standard * Gum.EndGauge[5].Sensitivity, 1e-3);
    }

    [Fact]
    public void The_mean_of_the_guides_temperatures_has_its_published_uncertainty()
    {
        var (mean, n) = (Gum.Temperatures.Average(), Gum.Temperatures.Length);
        var s = Math.Sqrt(Gum.Temperatures.Sum(t => (t - mean) * (t - mean)) / (n - 1));

        Assert.Equal(Gum.OfTemperatures.Deviation, s, 0.005);
        Assert.Equal(Gum.OfTemperatures.OfMean, Input.Mean(s, n).Standard, 0.005);
    }

    /// <summary>
    /// JCGM 101, 9.2.2 to 9.2.4 (from memory): four inputs of standard uncertainty 1, normal or rectangular, combine to 2; with one of 10 they combine to 10.1.
    /// </summary>
    [Fact]
    public void Four_inputs_add_as_in_the_supplements_examples()
    {
        var (normal, rectangular, one) = (new Propagation(), new Propagation(), new Propagation());
        for (var i = 0; i < 4; i++)
        {
            normal.Add(Input.Of(1).Standard, 1, 0);
            rectangular.Add(Input.Limit(Math.Sqrt(3)).Standard, 0, 1);
            one.Add(Input.Limit((i == 3 ? 10 : 1) * Math.Sqrt(3)).Standard, 1, 0);
        }

        Assert.Equal((2.0, 0.0), (normal.Along, normal.Across));
        Assert.Equal(2.0, rectangular.Across, 1e-12);
        Assert.Equal(10.14889156509222, one.Along, 1e-12);
    }

    [Fact]
    public void Limits_and_steps_of_hand_gauges_have_their_usual_standard_uncertainty()
    {
        Assert.Equal(GaugeLimits.Caliper.Standard, Input.Limit(GaugeLimits.Caliper.Limit).Standard, 5e-5);
        Assert.Equal(GaugeLimits.Micrometer.Standard, Input.Limit(GaugeLimits.Micrometer.Limit).Standard, 5e-5);
        Assert.Equal(GaugeLimits.Display.Standard, Input.Step(GaugeLimits.Display.Step).Standard, 5e-5);
        Assert.Equal(0.7071067811865475, new Input(1, Distribution.Arcsine).Standard, 1e-15); // a/√2
    }

    [Theory]
    [MemberData(nameof(SeatPropagation.Examples), MemberType = typeof(SeatPropagation))]
    public void Two_pins_propagate_as_calculated_by_another_program(
        double d, double uD, double pin, double uPin, double spacing, double uSpacing, double along, double across, double drawnAlong, double drawnAcross)
    {
        Assert.Equal(SeatFault.None, SeatSolver.TrySeat(Nest.Pins(spacing, 2 * pin), d / 2, out var seat));
        var sum = new Propagation();
        void Add(double u, PlanVector c) => sum.Add(u, c.V, c.U);
        Add(uD, 0.5 * seat.PerRadius);
        Add(uPin, seat.Solve(1, 0));
        Add(uPin, seat.Solve(0, 1));
        Add(uSpacing, seat.Solve(-0.5 * seat.FirstNormal.U, 0.5 * seat.SecondNormal.U));

        Assert.Equal(along, sum.Along, along * 1e-9);
        Assert.Equal(across, sum.Across, across * 1e-9);
        Assert.Equal(drawnAlong, sum.Along, drawnAlong * 0.015); // the last example is not linear: its draws differ by 1.1 % from any first-order value
        Assert.Equal(drawnAcross, sum.Across, drawnAcross * 0.005);
    }
}

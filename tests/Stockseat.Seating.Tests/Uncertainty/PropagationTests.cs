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
            sum.Add(Input.Of(standard).Standard, sensitivity, 0);
        }

        Add(ref sum, Gum.EndGaugeExpansion);
        Add(ref sum, Gum.EndGaugeTemperature);
        var (expansion, temperature) = (new Propagation(), new Propagation());
        Add(ref expansion, Gum.EndGaugeExpansion);
        Add(ref temperature, Gum.EndGaugeTemperature);

        Assert.Equal(Gum.EndGaugeCombined, Math.Round(sum.Along));
        Assert.Equal(Gum.EndGaugeUnrounded, sum.Along, 1e-9);
        Assert.Equal(Gum.EndGaugeParts.Expansion, expansion.Along, 1e-4);
        Assert.Equal(Gum.EndGaugeParts.Temperature, temperature.Along, 1e-3);

        static void Add(ref Propagation to, (double Limit, double Sensitivity) input) => to.Add(Input.Limit(input.Limit).Standard, input.Sensitivity, 0);
    }

    /// <summary>
    /// JCGM 101:2008, "Propagation of distributions using a Monte Carlo method", 9.2.2 to 9.2.4, from memory: four inputs of standard uncertainty 1, normal or
    /// rectangular, come to 2; with one of 10 they come to √103.
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
        Assert.Equal(drawnAlong, sum.Along, drawnAlong * 0.015); // in the last example v(D) is curved: the draws differ from any first-order value by 1.1 %
        Assert.Equal(drawnAcross, sum.Across, drawnAcross * 0.005);
    }
}

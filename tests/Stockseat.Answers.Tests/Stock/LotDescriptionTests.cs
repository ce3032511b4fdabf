using Stockseat.Answers.Stock;

namespace Stockseat.Answers.Tests.Stock;

public sealed class LotDescriptionTests
{
    [Fact]
    public void Values_that_are_not_stated_stay_unknown() =>
        Assert.Equal(new(), new LotDescription().Resolve(out _));

    [Fact]
    public void The_table_gives_the_out_of_round_unless_the_lot_states_it()
    {
        Assert.Equal(0.00195, new LotDescription { Nominal = 0.09, Tolerance = "EN 10060" }.Resolve(out _)!.OutOfRound!.Value, 1e-12);
        Assert.Equal(0.001, new LotDescription { Nominal = 0.09, Tolerance = "EN 10060", OutOfRound = 0.001 }.Resolve(out _)!.OutOfRound);
        Assert.Null(new LotDescription { Nominal = 0.09, Tolerance = "h11" }.Resolve(out _)!.OutOfRound);
    }

    [Fact]
    public void The_lower_limit_of_k6_lies_above_the_nominal()
    {
        var terms = new LotDescription { Nominal = 0.04, Tolerance = "k6" }.Resolve(out _)!;

        Assert.Equal(0.040002, terms.Least!.Value, 1e-12);
        Assert.Equal(0.040018, terms.Greatest!.Value, 1e-12);
    }

    [Fact]
    public void All_faults_are_reported_at_once()
    {
        Assert.Null(new LotDescription { Tolerance = "h11", Plus = 0.001 }.Resolve(out var faults));

        Assert.Equal(
            [(LotPart.Tolerance, "can't be stated together with plus or minus; state one or the other"),
                (LotPart.Plus, "needs a minus as well; state 0 when there is none"), (LotPart.Tolerance, "needs a nominal as well")],
            faults);
    }

    [Theory]
    [InlineData(0.0005, 0.0005)]
    [InlineData(0.0005, 0.1)]
    public void A_minus_tolerance_never_makes_a_diameter_zero_or_less(double nominal, double minus)
    {
        Assert.Null(new LotDescription { Nominal = nominal, Plus = 0, Minus = minus }.Resolve(out var faults));

        Assert.Equal(LotPart.Minus, Assert.Single(faults).Part);
    }
}

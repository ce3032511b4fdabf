using CsCheck;
using Stockseat.Answers.Advising;
using Stockseat.Answers.Tests.Published;

namespace Stockseat.Answers.Tests.Advising;

public sealed class IndividualsLimitsTests
{
    [Fact]
    public void The_published_flow_rates_have_the_published_limits()
    {
        var limits = IndividualsLimits.Of(FlowRates.Values)!.Value;

        Assert.Equal(FlowRates.Mean, limits.Mean, 1e-9);
        Assert.Equal(FlowRates.MeanMovingRange, limits.MeanMovingRange, 0.00005);
        // The printed limits come from the rounded mean range, so they may differ by another 3 · 0.00005 / 1.128.
        Assert.Equal(FlowRates.Upper, limits.Upper, 0.0002);
        Assert.Equal(FlowRates.Lower, limits.Lower, 0.0002);
        Assert.DoesNotContain(FlowRates.Values, limits.Beyond);
        Assert.True(limits.Beyond(55.81) && limits.Beyond(45.81) && !limits.Beyond(55.8) && !limits.Beyond(45.82));
    }

    [Fact]
    public void Fewer_than_eight_values_give_no_limits()
    {
        Assert.Null(IndividualsLimits.Of(FlowRates.Values[..7]));
        Assert.NotNull(IndividualsLimits.Of(FlowRates.Values[..8]));
        Assert.Null(IndividualsLimits.Of([]));
    }

    [Fact]
    public void Equal_values_lie_within_the_limits_and_any_other_value_lies_beyond()
    {
        var limits = IndividualsLimits.Of([.. Enumerable.Repeat(0.1 / 3, 30)])!.Value;

        Assert.False(limits.Beyond(0.1 / 3));
        Assert.True(limits.Beyond(0.1 / 3 + 1e-9));
    }

    [Fact]
    public void Limits_move_with_the_values_and_turn_with_their_sign() => Gen.Select(Gen.Double[-1, 1].Array[8, 40], Gen.Double[-5, 5]).Sample((values, by) =>
    {
        var limits = IndividualsLimits.Of(values)!.Value;
        var moved = IndividualsLimits.Of([.. values.Select(v => v + by)])!.Value;
        var turned = IndividualsLimits.Of([.. values.Select(v => -v)])!.Value;

        Assert.Equal(limits.Upper + by, moved.Upper, 1e-9);
        Assert.Equal(limits.Lower + by, moved.Lower, 1e-9);
        Assert.Equal(-limits.Lower, turned.Upper, 1e-9);
        Assert.InRange(limits.Mean, limits.Lower, limits.Upper);
    }, iter: 500);

    [Fact]
    public void Each_revision_has_limits_of_its_own()
    {
        var rechecks = FlowRates.Values.Select(v => (1, v, -v)).Append((2, 7.0, 7.0)).Concat(FlowRates.Values.Select(v => (3, v + 1, v))).ToList();

        var sections = TrendSection.Of(rechecks);

        Assert.Equal([(1, 0, 10), (2, 10, 1), (3, 11, 10)], sections.Select(s => (s.Revision, s.First, s.Count)));
        Assert.Equal([FlowRates.Mean, null, FlowRates.Mean + 1], sections.Select(s => Rounded(s.Along?.Mean)));
        Assert.Equal([-FlowRates.Mean, null, FlowRates.Mean], sections.Select(s => Rounded(s.Across?.Mean)));
        Assert.Empty(TrendSection.Of([]));
    }

    private static double? Rounded(double? value) => value is { } v ? Math.Round(v, 9) : null;
}

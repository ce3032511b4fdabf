using Stockseat.Fixtures.Planning;
using Stockseat.Seating.Envelopes;

namespace Stockseat.Fixtures.Tests.Planning;

public sealed class RankingTests
{
    private static readonly JudgedCandidate Plain =
        new() { Candidate = Candidate.Vee(1.5), Holds = true, Share = 1, MarginRadians = 0.2, Gap = Gap(0.01), Sensitivity = (1.4, 1.4) };

    [Fact]
    public void A_candidate_within_all_limits_comes_first_whatever_its_margin() =>
        InOrder(Plain with { MarginRadians = 0.01 }, Plain with { Holds = false, MarginRadians = 0.5 });

    [Fact]
    public void Of_candidates_beyond_a_limit_the_one_with_the_larger_share_of_the_range_comes_first() =>
        InOrder(Plain with { Holds = false, Share = 0.6, MarginRadians = null }, Plain with { Holds = false, Share = 0.5 });

    [Fact]
    public void The_larger_margin_counts_before_the_larger_gap() =>
        InOrder(Plain with { MarginRadians = 0.3, Gap = Gap(0.001) }, Plain);

    [Fact]
    public void Where_margins_differ_only_by_rounding_the_larger_gap_comes_first() =>
        InOrder(Plain with { MarginRadians = 0.2 - 1e-15, Gap = Gap(0.02) }, Plain);

    [Fact]
    public void The_smaller_sensitivity_decides_the_rest() =>
        InOrder(Plain with { Sensitivity = (1.3, 1.3) }, Plain);

    [Fact]
    public void A_candidate_with_an_unknown_value_comes_last() =>
        InOrder(Plain with { MarginRadians = -0.5 }, Plain with { MarginRadians = null });

    private static void InOrder(JudgedCandidate first, JudgedCandidate second)
    {
        Assert.Equal([first, second], new[] { second, first }.Order(Ranking.BestFirst));
        Assert.True(Ranking.BestFirst.Compare(first, second) < 0);
    }

    private static SmallestGap Gap(double metres) => new(new(new(PartyKind.Stock), new(PartyKind.Stock, 0, 1), Jaws.None, metres), 0.1);
}

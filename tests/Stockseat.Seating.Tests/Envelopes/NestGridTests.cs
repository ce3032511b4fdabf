using CsCheck;
using Stockseat.Seating.Envelopes;
using Stockseat.Seating.Frames;
using Stockseat.Seating.Locators;

namespace Stockseat.Seating.Tests.Envelopes;

/// <summary>Of many nests only a few are checked, and none that matters is left out.</summary>
public class NestGridTests
{
    /// <summary>Slanted and dense grids too, with long jaws: the comparison checks all nests.</summary>
    [Fact]
    public void NoNestThatMatters_IsLeftOut() =>
        Gen.Select(AnyPlan.Of, Gen.Double[0.3, 0.9], Gen.Double[0.3, 0.9], Gen.Double[-0.05, 0.05], Gen.Double[0, 1].Array[4]).Select(
        (plan, across, along, slant, shares) => (Plan: plan with
        {
            NeighbourDiameterMetres = null, Columns = 5, Rows = 4, ColumnStep = across * plan.ColumnStep,
            RowStep = (along * plan.RowStep) + new PlanVector(slant, 0), LocatorTopMetres = 0, StockLengthMetres = 0.05,
            Gripper = plan.Gripper is { } g ? g with { JawThicknessMetres = 0.2, JawTipHeightMetres = 0.06 } : null,
        }, shares)).Sample(
        sample =>
        {
            var (plan, shares) = sample;
            if (EnvelopeSolver.Solve(plan, out _) is not { } envelope)
            {
                Assert.False(NaiveGaps.Holds(plan, plan.TaughtDiameterMetres));
                return;
            }

            foreach (var share in shares.Append(0).Append(1))
            {
                Assert.True(
                    NaiveGaps.Holds(plan, envelope.Least.DiameterMetres + (share * (envelope.Greatest.DiameterMetres - envelope.Least.DiameterMetres))));
            }
        }, iter: 40);

    /// <summary>All these nests would give 400 million offsets, and each obstacle another 100 million.</summary>
    [Fact]
    public void TenThousandByTenThousandNests_AllowWhatFourByFourDo()
    {
        var plan = Plans.Bed with
        {
            Columns = 4, Rows = 4, ColumnStep = new(0.125, 0), RowStep = new(0, -0.130), Gripper = Plans.ThreeJaws, GapMetres = 0.001,
            Obstacles = [new("post", new(0.0625, -0.06), new(0.0625, -0.06), 0.005, null), new("bar", new(-0.1, 0.16), new(40, 0.16), 0.010, null)],
        };

        Assert.Equal(Plans.Solved(plan), Plans.Solved(plan with { Columns = 10_000, Rows = 10_000 }));
        Assert.Equal(Gaps.At(plan, 0.080)[0].Metres, Gaps.At(plan with { Columns = 10_000, Rows = 10_000 }, 0.080)[0].Metres, 12);
    }

    [Fact]
    public void NestsThatOverlapByTheThousands_AreReportedByTheNearest() =>
        Assert.Equal(
            Constraint.Gap, Plans.Violated(Plans.Bed with { Columns = 10_000, Rows = 10_000, ColumnStep = new(1e-5, 0), RowStep = new(0, 1e-5) }).Constraint);

    /// <summary>Jaws that open to 9 m among stock of 1 mm: the search for what they meet would cover 80 million nests.</summary>
    [Fact]
    public void MoreNestsThanCanBeChecked_AllowNoDiameter()
    {
        var plan = Plans.Of(Nest.Vee(Math.PI / 2, 0.0001, 0.001), 0.001) with
        {
            Columns = 10_000, Rows = 10_000, ColumnStep = new(0.010, 0), RowStep = new(0, 0.010),
            Gripper = Plans.ThreeJaws with
            {
                JawWidthMetres = 0.0001, JawThicknessMetres = 0.0001, OpenByMetres = 9, StrokeMetres = (0, 10), JawTipHeightMetres = 0.1,
            },
            LocatorTopMetres = 0.1,
        };

        Assert.Equal((Constraint.Reach, null), (Plans.Violated(plan).Constraint, Plans.Violated(plan).Limit));
    }

    /// <summary>
    /// A jaw that points up moves up along twenty bars, all at exactly the wanted gap beside it: the smallest steps, for each bar, over metres.
    /// </summary>
    [Fact]
    public void GapsThatAreExactlyTheWantedGapAllAlong_EndTheSearch()
    {
        var plan = Plans.Of(Nest.Vee(Math.PI / 2, 0, 9), 0.080) with
        {
            Gripper = Plans.ThreeJaws with { Jaws = 1, StrokeMetres = (0, 10), JawTipHeightMetres = 0.010 }, LocatorTopMetres = 0.001, GapMetres = 0.002,
            Obstacles = [.. Enumerable.Range(0, 20).Select(i => new Obstacle($"bar {i}", new(0.015, 1), new(0.015, 20), 0.010, null))],
        };

        var end = Plans.Solved(plan).Greatest;

        Assert.Equal((Constraint.Reach, null), (end.Constraint, end.Limit));
        Assert.InRange(end.DiameterMetres, 0.080, 4.9);
    }
}

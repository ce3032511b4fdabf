using CsCheck;
using Stockseat.Seating.Envelopes;
using Stockseat.Seating.Seats;

namespace Stockseat.Seating.Tests.Envelopes;

/// <summary>Every gap of random plans, compared with NetTopologySuite's.</summary>
public class GapsTests
{
    [Fact]
    public void EveryGap_IsThatOfAnIndependentGeometry() => AnyPlan.Of.Sample(
        plan =>
        {
            if (!Comparable(plan))
            {
                return;
            }

            var found = Gaps.At(plan, plan.TaughtDiameterMetres).ToDictionary(Key, gap => gap.Metres);
            var expected = NaiveGaps.At(plan, plan.TaughtDiameterMetres);
            Assert.Equal(expected.Count, found.Count);
            foreach (var (gap, deep, _) in expected)
            {
                Agree(gap, deep, found[Key(gap)]);
            }
        }, iter: 300);

    [Fact]
    public void TheSmallestGapIsFirst() => AnyPlan.Of.Sample(
        plan =>
        {
            var gaps = Gaps.At(plan, plan.TaughtDiameterMetres).Select(gap => gap.Metres).ToList();
            Assert.Equal(gaps.Order(), gaps);
        }, iter: 30);

    [Fact]
    public void WithoutASeat_ThereIsNoGap() =>
        Assert.Empty(Gaps.At(Plans.Bed with { Columns = 2, ColumnStep = new(0.1, 0) }, 0.040));

    private static (Party, Party, Jaws) Key(GapReading gap) => (gap.Mine, gap.Theirs, gap.Jaws);

    private static bool Comparable(Plan plan) =>
        SeatSolver.TryClear(plan.Nest, plan.TaughtDiameterMetres / 2, plan.StandOffMetres, out _) == SeatFault.None
        && (plan.NeighbourDiameterMetres is not { } other || SeatSolver.TrySeat(plan.Nest, other / 2, out _) == SeatFault.None);

    private static void Agree(GapReading expected, bool deep, double found)
    {
        if (!deep)
        {
            Close.To(expected.Metres, found, 1e-11);
        }
        else if (expected.Mine.Kind == PartyKind.Palm && expected.Theirs.Kind == PartyKind.Face && expected.Theirs is { Column: 0, Row: 0 })
        {
            Close.To(expected.Metres, found, 1e-6); // a disc of 2,000 corners
        }
        else
        {
            // Which direction separates them soonest is not compared; that they overlap, both must say.
            Assert.True(found <= 1e-12 && found >= -1, $"{expected}, was {found}");
        }
    }
}

using CsCheck;
using Stockseat.Seating.Envelopes;
using Stockseat.Seating.Seats;

namespace Stockseat.Seating.Tests.Envelopes;

/// <summary>Properties that every envelope must have, on random plans.</summary>
public class EnvelopePropertyTests
{
    private const double Micrometre = 1e-6;

    /// <summary>The check knows nothing about steps, pruning or intervals.</summary>
    [Fact]
    public void EveryDiameterInsideIsAllowed_AndNoneOneAndAHalfMicrometresOutside() => Gen.Select(AnyPlan.Holding, Gen.Double[0, 1].Array[12]).Sample(
        (solved, shares) =>
        {
            var (plan, envelope) = solved;
            var (least, greatest) = (envelope.Least.DiameterMetres, envelope.Greatest.DiameterMetres);
            Assert.True(least <= plan.TaughtDiameterMetres && greatest >= plan.TaughtDiameterMetres);
            foreach (var diameter in shares.Select(share => least + (share * (greatest - least))).Append(least).Append(greatest))
            {
                Assert.True(NaiveGaps.Holds(plan, diameter), $"{diameter} in {least} to {greatest}");
            }

            Assert.False(NaiveGaps.Holds(plan, least - (1.5 * Micrometre)), $"below {least}, {envelope.Least}");
            Assert.False(NaiveGaps.Holds(plan, greatest + (1.5 * Micrometre)), $"above {greatest}, {envelope.Greatest}");
        }, iter: 150);

    [Fact]
    public void ThereIsNoEnvelope_ExactlyWhenTheTaughtDiameterIsNotAllowed() => AnyPlan.Of.Where(HasNeighbours).Sample(
        plan =>
        {
            var envelope = EnvelopeSolver.Solve(plan, out var violated);
            var holds = NaiveGaps.Holds(plan, plan.TaughtDiameterMetres);
            Assert.Equal((holds, holds), (envelope is not null, violated is null));
        }, iter: 300);

    [Fact]
    public void TheReadingAtAnEnd_IsBelowItsLimit() => AnyPlan.Holding.Sample(
        solved =>
        {
            foreach (var end in new[] { solved.Envelope.Least, solved.Envelope.Greatest })
            {
                Assert.Equal(end.Constraint == Constraint.Gap, end.Gap is not null);
                Assert.True(end.Gap is not { } gap || gap.Metres < end.Limit, $"{end}");
            }
        }, iter: 200);

    [Fact]
    public void AWiderGap_NeverWidensTheEnvelope() => Gen.Select(AnyPlan.Holding, Gen.Double[0, 0.003]).Sample(
        (solved, more) => Within(solved.Envelope, solved.Plan with { GapMetres = (solved.Plan.GapMetres ?? 0) + more }), iter: 200);

    [Fact]
    public void LargerJaws_NeverWidenTheEnvelope() =>
        Gen.Select(AnyPlan.Holding.Where(solved => solved.Plan.Gripper is not null), Gen.Double[0, 0.004], Gen.Double[0, 0.004]).Sample(
        (solved, wider, thicker) => Within(solved.Envelope, solved.Plan with
        {
            Gripper = solved.Plan.Gripper! with
            {
                JawWidthMetres = solved.Plan.Gripper.JawWidthMetres + wider, JawThicknessMetres = solved.Plan.Gripper.JawThicknessMetres + thicker,
            },
        }), iter: 200);

    /// <summary>
    /// The upper end only: there the shift is longer, and the place above rolls off sooner. (At the lower end the shift is shorter, and jaws move away from the
    /// locators.)
    /// </summary>
    [Fact]
    public void ALargerStandOff_NeverRaisesTheUpperEnd_WithoutAGripper() => Gen.Select(AnyPlan.Holding, Gen.Double[0, 0.003]).Sample(
        (solved, more) =>
        {
            var plan = solved.Plan with { Gripper = null };
            var greatest = Plans.Solved(plan).Greatest.DiameterMetres;
            var less = EnvelopeSolver.Solve(plan with { StandOffMetres = plan.StandOffMetres + more }, out _);
            Assert.True(less is null || less.Greatest.DiameterMetres <= greatest + Micrometre);
        }, iter: 200);

    [Fact]
    public void TheEnvelopeIsTheSame_WhereverThePlansOriginIs() => Gen.Select(AnyPlan.Holding, Gen.Double[-1, 1], Gen.Double[-1, 1]).Sample(
        (solved, u, v) => Same(solved.Envelope, AnyPlan.Shifted(solved.Plan, new(u, v))), iter: 200);

    [Fact]
    public void TheEnvelopeIsTheSame_MirroredAtTheSeatAxis() =>
        AnyPlan.Holding.Sample(solved => Same(solved.Envelope, AnyPlan.Mirrored(solved.Plan)), iter: 200);

    private static bool HasNeighbours(Plan plan) =>
        plan.NeighbourDiameterMetres is not { } other || SeatSolver.TrySeat(plan.Nest, other / 2, out _) == SeatFault.None;

    private static void Within(Envelope wide, Plan plan)
    {
        if (EnvelopeSolver.Solve(plan, out _) is { } narrow)
        {
            Assert.True(narrow.Least.DiameterMetres >= wide.Least.DiameterMetres - Micrometre, $"{narrow.Least} {wide.Least}");
            Assert.True(narrow.Greatest.DiameterMetres <= wide.Greatest.DiameterMetres + Micrometre, $"{narrow.Greatest} {wide.Greatest}");
        }
    }

    private static void Same(Envelope expected, Plan plan)
    {
        var found = Plans.Solved(plan);
        Close.To(expected.Least.DiameterMetres, found.Least.DiameterMetres, Micrometre);
        Close.To(expected.Greatest.DiameterMetres, found.Greatest.DiameterMetres, Micrometre);
        Assert.Equal((expected.Least.Constraint, expected.Greatest.Constraint), (found.Least.Constraint, found.Greatest.Constraint));
    }
}

using Stockseat.Seating.Envelopes;
using Stockseat.Seating.Seats;

namespace Stockseat.Seating.Tests.Envelopes;

/// <summary>Every limit of a diameter except gaps, written a second time.</summary>
internal static class NaiveLimits
{
    public static bool Hold(Plan plan, double diameter)
    {
        if (SeatSolver.TrySeat(plan.Nest, diameter / 2, out var seat) != SeatFault.None
            || SeatSolver.TryClear(plan.Nest, diameter / 2, plan.StandOffMetres, out var clear) != SeatFault.None)
        {
            return false;
        }

        var mass = plan.Density * plan.StockLengthMetres * Math.PI * diameter * diameter / 4;
        double[] spans = plan.Gripper is { } gripper ? [diameter, gripper.Open(diameter)] : [];
        return diameter >= Plan.Reach.From && diameter <= Plan.Reach.To
            && !(diameter < plan.StatedMetres?.From) && !(diameter > plan.StatedMetres?.To)
            && seat.HeldRadians >= plan.HeldRadians - (2 * Plan.Rounding)
            && !(seat.PerRadius.Length > plan.Sensitivity + (2 * Plan.Rounding))
            && !((clear.Centre - plan.Taught.Centre).Length > plan.ShiftMetres + (2 * Plan.Rounding))
            && !(mass > plan.PayloadKilograms + (2 * Plan.Rounding))
            && spans.All(span => span >= plan.Gripper!.StrokeMetres.From - (2 * Plan.Rounding) && span <= plan.Gripper.StrokeMetres.To + (2 * Plan.Rounding))
            && !(plan.Gripper?.OpenToMetres <= diameter);
    }
}

using Stockseat.Seating.Frames;

namespace Stockseat.Seating.Seats;

/// <summary>Where a piece of stock rests in a nest.</summary>
/// <param name="Centre">The seat centre C in the plan, in metres.</param>
/// <param name="FirstNormal">n₁: unit, from the first contact towards the centre.</param>
/// <param name="SecondNormal">n₂: unit, from the second contact towards the centre.</param>
/// <param name="PerRadius">dC/dR, dimensionless: how far the centre moves for a change of the radius.</param>
/// <param name="HeldRadians">The smaller angle between the seat axis and an edge of the cone of n₁ and n₂.</param>
public readonly record struct Seat(
    PlanVector Centre, PlanVector FirstNormal, PlanVector SecondNormal, PlanVector PerRadius, double HeldRadians)
{
    /// <summary>The sensitivity |dC/dR|, per radius.</summary>
    public double Sensitivity => PerRadius.Length;

    /// <summary>Solves N·x = rhs with N = [n₁ᵀ; n₂ᵀ]: how the centre moves when the offsets of the contacts change by rhs.</summary>
    public PlanVector Solve(double first, double second) => SeatSolver.Solve2(FirstNormal, SecondNormal, first, second);
}

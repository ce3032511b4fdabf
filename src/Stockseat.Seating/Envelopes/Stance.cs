using Stockseat.Seating.Frames;
using Stockseat.Seating.Seats;

namespace Stockseat.Seating.Envelopes;

/// <summary>Where everything that moves with the diameter is.</summary>
/// <param name="DiameterMetres">The diameter, in metres.</param>
/// <param name="Seat">The stock's centre in its seat, C(R).</param>
/// <param name="Clear">The gripper's centre, C(R + g).</param>
/// <param name="OpenRadiusMetres">From the centre of the gripper to the inner sides of its open jaws, in metres.</param>
/// <param name="Sensitivity">|dC/dR| in the seat.</param>
internal readonly record struct Stance(double DiameterMetres, PlanVector Seat, PlanVector Clear, double OpenRadiusMetres, double Sensitivity)
{
    public double RadiusMetres => DiameterMetres / 2;

    /// <summary>The stance at a diameter; false when there is no seat, or no place that clears the locators.</summary>
    public static bool TryTake(Plan plan, double diameterMetres, out Stance stance)
    {
        stance = default;
        if (SeatSolver.TrySeat(plan.Nest, diameterMetres / 2, out var seat) != SeatFault.None
            || SeatSolver.TryClear(plan.Nest, diameterMetres / 2, plan.StandOffMetres, out var clear) != SeatFault.None)
        {
            return false;
        }

        stance = new(diameterMetres, seat.Centre, clear.Centre, (plan.Gripper?.Open(diameterMetres) ?? diameterMetres) / 2, seat.Sensitivity);
        return true;
    }
}

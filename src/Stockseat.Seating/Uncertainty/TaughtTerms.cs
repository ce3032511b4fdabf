using Stockseat.Seating.Frames;
using Stockseat.Seating.Seats;

namespace Stockseat.Seating.Uncertainty;

/// <summary>The part of the uncertainty that comes from the seat at the taught diameter: it is the same for all diameters.</summary>
/// <param name="seat">The seat at the taught diameter.</param>
public sealed class TaughtTerms(in Seat seat)
{
    /// <summary>The seat.</summary>
    public Seat Seat { get; } = seat;

    /// <summary>How the centre of that seat moves when the first contact does.</summary>
    public PlanVector ByFirst { get; } = seat.Solve(1, 0);

    /// <summary>How the centre of that seat moves when the second contact does.</summary>
    public PlanVector BySecond { get; } = seat.Solve(0, 1);
}

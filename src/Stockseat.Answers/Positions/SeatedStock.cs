using Stockseat.Seating.Frames;
using Stockseat.Seating.Seats;

namespace Stockseat.Answers.Positions;

/// <summary>Where stock goes in a nest.</summary>
/// <param name="Seat">Its seat.</param>
/// <param name="ShiftPlan">C(R + g) − C(R_taught) in the plan, in metres.</param>
public readonly record struct SeatedStock(Seat Seat, PlanVector ShiftPlan);

using Stockseat.Seating.Frames;

namespace Stockseat.Seating.Envelopes;

/// <summary>Something else that stands on the fixture: a round post, or a straight bar with round ends.</summary>
/// <param name="Name">What it is called.</param>
/// <param name="From">The centre of the post, or one end of the centre line of the bar, from the plan origin of nest 0,0, in metres.</param>
/// <param name="To">The other end; the same for a post.</param>
/// <param name="DiameterMetres">The post's diameter, or the bar's thickness, in metres.</param>
/// <param name="TopMetres">How high it is above the ground of the plan; null: not stated, so that everything may meet it.</param>
public sealed record Obstacle(string Name, PlanVector From, PlanVector To, double DiameterMetres, double? TopMetres);

using Stockseat.Seating.Frames;

namespace Stockseat.Seating.Envelopes;

/// <summary>Something else that stands on the fixture: a round post, or a straight bar with round ends.</summary>
/// <param name="Name">What it is called.</param>
/// <param name="From">The post's centre, or one end of the bar's centre line, from nest 0,0's plan origin, in metres.</param>
/// <param name="To">The other end; the same for a post.</param>
/// <param name="DiameterMetres">The post's diameter, or the bar's thickness, in metres.</param>
/// <param name="TopMetres">How high it is above the ground of the plan; null: not stated, so that it may be met.</param>
public sealed record Obstacle(string Name, PlanVector From, PlanVector To, double DiameterMetres, double? TopMetres);

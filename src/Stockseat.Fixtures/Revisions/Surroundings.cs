using Stockseat.Seating.Envelopes;

namespace Stockseat.Fixtures.Revisions;

/// <summary>What is around the stock. What is not stated is null, and limits nothing.</summary>
/// <param name="Gripper">The gripper.</param>
/// <param name="Obstacles">What else stands on the fixture.</param>
/// <param name="Density">Of the stock, in kg/m³.</param>
/// <param name="StockLengthMetres">Of the stock along w, in metres.</param>
/// <param name="LocatorTopMetres">How high the locators are above the ground of the plan, in metres.</param>
public sealed record Surroundings(Gripper? Gripper, IReadOnlyList<Obstacle> Obstacles, double? Density, double? StockLengthMetres, double? LocatorTopMetres);

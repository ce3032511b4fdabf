using Stockseat.Seating.Envelopes;

namespace Stockseat.Fixtures.Revisions;

/// <summary>What is around the stock. A value that is not stated is null and limits nothing.</summary>
/// <param name="Gripper">The gripper.</param>
/// <param name="Obstacles">The other things that stand on the fixture.</param>
/// <param name="Density">The density of the stock, in kg/m³.</param>
/// <param name="StockLengthMetres">The length of the stock along w, in metres.</param>
/// <param name="LocatorTopMetres">How high the locators are above the ground of the plan, in metres.</param>
public sealed record Surroundings(Gripper? Gripper, IReadOnlyList<Obstacle> Obstacles, double? Density, double? StockLengthMetres, double? LocatorTopMetres);

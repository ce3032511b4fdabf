using Stockseat.Seating.Frames;
using Stockseat.Seating.Locators;

namespace Stockseat.Fixtures.Revisions;

/// <summary>The values with which touched nests are compared: those of a revision, without its frame.</summary>
/// <param name="Nest">The locators of each nest.</param>
/// <param name="Layout">How the nests repeat.</param>
/// <param name="TaughtDiameterMetres">The diameter of the stock that the origin was taught with, in metres.</param>
/// <param name="TaughtPositionMetres">The taught position of the seat centre of that stock in base, in metres.</param>
public readonly record struct TouchReference(Nest Nest, Layout Layout, double TaughtDiameterMetres, Vector3 TaughtPositionMetres);

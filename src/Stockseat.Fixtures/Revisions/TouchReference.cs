using Stockseat.Seating.Frames;
using Stockseat.Seating.Locators;

namespace Stockseat.Fixtures.Revisions;

/// <summary>What the touched nests are held against: the values of a revision but for its frame.</summary>
/// <param name="Nest">The locators of each nest.</param>
/// <param name="Layout">How the nests repeat.</param>
/// <param name="TaughtDiameterMetres">The diameter of the stock that the origin was taught with, in metres.</param>
/// <param name="TaughtPositionMetres">Where that stock's seat centre was taught in base, in metres.</param>
public readonly record struct TouchReference(Nest Nest, Layout Layout, double TaughtDiameterMetres, Vector3 TaughtPositionMetres);

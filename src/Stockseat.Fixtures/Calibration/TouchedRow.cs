using Stockseat.Fixtures.Revisions;

namespace Stockseat.Fixtures.Calibration;

/// <summary>A line of a table of touched nests.</summary>
/// <param name="Line">Its number, from 1.</param>
/// <param name="Nest">The touched nest that the line describes.</param>
/// <param name="Diameter">The diameter as it was typed, with its unit.</param>
/// <param name="X">The position along x as it was typed, with its unit.</param>
/// <param name="Y">The same along y.</param>
/// <param name="Z">The same along z.</param>
public sealed record TouchedRow(int Line, TouchedNest Nest, string Diameter, string X, string Y, string Z);

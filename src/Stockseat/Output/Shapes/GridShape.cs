namespace Stockseat.Cli.Output.Shapes;

/// <summary>Where all nests are.</summary>
internal sealed record GridShape(
    long Serial, string Fixture, int Revision, string Digest, double Diameter, string Unit, bool First, int Count, string PositionsDigest,
    IEnumerable<GridNestShape> Nests);

/// <summary>Where a nest is, in base, in metres.</summary>
internal sealed record GridNestShape(int[] Nest, double[] Position);

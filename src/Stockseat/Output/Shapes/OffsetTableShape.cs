namespace Stockseat.Cli.Output.Shapes;

/// <summary>A table of offsets: metres with six decimals, as served.</summary>
internal sealed record OffsetTableShape(
    string Fixture, int Revision, string Digest, bool? InForce, string Standing, string? Refused, string Purpose, int[] Nest, string Unit, decimal StandOff,
    TaughtShape Taught, decimal[] Orientation, OffsetEndShape Least, OffsetEndShape Greatest, string? Gauge, IEnumerable<OffsetRowShape> Rows,
    LeftOutShape? LeftOut);

internal sealed record TaughtShape(decimal Diameter, decimal[] Position);

internal sealed record OffsetEndShape(decimal Diameter, string Constraint, string Text);

internal sealed record OffsetRowShape(
    decimal Diameter, decimal[] ShiftBase, decimal[] Position, ServedUncertaintyShape? Uncertainty, ServedUncertaintyShape? UncertaintyWorst, string? Mark);

internal sealed record ServedUncertaintyShape(decimal Along, decimal Across, int K = 2);

/// <summary>The diameters that would be refused, and why the first of them.</summary>
internal sealed record LeftOutShape(int Count, string Reason, string Text);

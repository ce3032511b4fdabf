namespace Stockseat.Fixtures.Revisions;

/// <summary>How well touched nests have to fit.</summary>
/// <param name="ResidualMetres">The longest residual of a touched nest, in metres.</param>
/// <param name="OriginMetres">The farthest that nest 0,0 may be found from where it was taught, in metres.</param>
public readonly record struct TouchLimits(double ResidualMetres, double OriginMetres)
{
    /// <summary>
    /// What counts unless stated: 0.5 mm is several times the scatter of touching, 1 mm is far below any pitch. Our own choice, without a source.
    /// </summary>
    public static TouchLimits Usual { get; } = new(0.0005, 0.001);
}

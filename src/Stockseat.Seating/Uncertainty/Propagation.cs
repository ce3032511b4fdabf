namespace Stockseat.Seating.Uncertainty;

/// <summary>
/// The law of propagation of uncertainty, first order, for independent inputs: u_c² = Σ (cᵢ·uᵢ)², for two results at once (JCGM 100:2008, 5.1.2; the clause is
/// cited from memory). An input that acts in several places is first combined into one sensitivity, with the signs.
/// </summary>
public struct Propagation
{
    /// <summary>The coverage factor k of an expanded uncertainty: common practice (about 95 % of a normal distribution).</summary>
    public const double CoverageFactor = 2;

    private double _along;
    private double _across;

    /// <summary>The combined standard uncertainty along the seat axis.</summary>
    public readonly double Along => Math.Sqrt(_along);

    /// <summary>The combined standard uncertainty across it.</summary>
    public readonly double Across => Math.Sqrt(_across);

    /// <summary>Adds an independent input.</summary>
    /// <param name="standard">Its standard uncertainty u.</param>
    /// <param name="along">Its sensitivity ∂/∂x along.</param>
    /// <param name="across">Its sensitivity across.</param>
    public void Add(double standard, double along, double across)
    {
        var (v, u) = (standard * along, standard * across);
        _along += v * v;
        _across += u * u;
    }
}

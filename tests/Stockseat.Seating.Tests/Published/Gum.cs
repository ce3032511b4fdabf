namespace Stockseat.Seating.Tests.Published;

/// <summary>
/// Origin: JCGM 100:2008, "Guide to the expression of uncertainty in measurement" (GUM 1995 with minor corrections), example H.1. Numbers only; the text is
/// copyright of the JCGM's member organizations. The guide itself was not read: the inputs and results of H.1 were read in the documentation of GTC, a
/// library of the Measurement Standards Laboratory of New Zealand (example GUM_H1 at gtc.readthedocs.io, MIT licence), which reproduces them.
/// </summary>
public static class Gum
{
    /// <summary>The end gauge of H.1, its length in nm: each input that has a standard uncertainty, with the sensitivity to it.</summary>
    public static readonly (double Standard, double Sensitivity)[] EndGauge =
    [
        (25, 1),                      // the standard's length l_s, from its certificate
        (5.8, 1), (3.9, 1), (6.7, 1), // the comparator: repeated, random, systematic
    ];

    /// <summary>The difference of the expansion coefficients: limits ±1e-6 per degree, at a mean temperature difference of -0.1 degrees.</summary>
    public static readonly (double Limit, double Sensitivity) EndGaugeExpansion = (1e-6, 50_000_623 * 0.1);

    /// <summary>The difference of the temperatures: limits ±0.05 degrees.</summary>
    public static readonly (double Limit, double Sensitivity) EndGaugeTemperature = (0.05, 50_000_623 * 11.5e-6);

    /// <summary>The published combined standard uncertainty, rounded.</summary>
    public const double EndGaugeCombined = 32;

    /// <summary>The same before it is rounded, from the rows above: computed in Python's double precision, not by this project's code.</summary>
    public const double EndGaugeUnrounded = 31.663879111008633;

    /// <summary>The published parts of the coefficients and of the temperatures.</summary>
    public static readonly (double Expansion, double Temperature) EndGaugeParts = (2.88679, 16.599);
}

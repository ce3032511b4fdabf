namespace Stockseat.Seating.Tests.Published;

/// <summary>
/// Origin: JCGM 100:2008 (GUM 1995 with minor corrections), H.1 and 4.4.3; JCGM 101:2008, 9.2. Numbers only; the texts are copyright of the JCGM members.
/// Read: the inputs and results of H.1, in the documentation of a metrology library (MSLNZ, MIT) that reproduces it. From memory: 4.4.3, and the results of
/// 9.2, whose exact end points follow from the Irwin-Hall distribution.
/// </summary>
public static class Gum
{
    /// <summary>H.1, the end gauge: its length in nm, with the standard uncertainty and sensitivity of each component.</summary>
    public static readonly (double Standard, double Sensitivity)[] EndGauge =
    [
        (25, 1),                                    // the standard's length l_s, from its certificate
        (5.8, 1), (3.9, 1), (6.7, 1),               // the comparator: repeated, random, systematic
        (1e-6 / SquareRootOf3, 50_000_623 * 0.1),   // the difference of the expansion coefficients, ±1e-6 per degree, at a mean of -0.1 degrees
        (0.05 / SquareRootOf3, 50_000_623 * 11.5e-6), // the difference of the temperatures, ±0.05 degrees
    ];

    /// <summary>The published combined standard uncertainty, rounded.</summary>
    public const double EndGaugeCombined = 32;

    /// <summary>Its published components, rounded: thermometer's part 16.6, coefficients' part 2.9.</summary>
    public const double EndGaugeTemperature = 16.599;

    public const double EndGaugeExpansion = 2.88679;

    /// <summary>4.4.3: twenty temperatures.</summary>
    public static readonly double[] Temperatures =
        [96.90, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07, 100.33, 100.42, 100.68, 100.95, 101.11, 101.20, 101.57, 101.84, 102.36, 102.72];

    /// <summary>Their published standard deviation, and that of the mean.</summary>
    public static readonly (double Deviation, double OfMean) OfTemperatures = (1.49, 0.33);

    private const double SquareRootOf3 = 1.7320508075688772;
}

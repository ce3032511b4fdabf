namespace Stockseat.Seating.Tests.Published;

/// <summary>
/// Origin: National Institute of Standards and Technology, Statistical Reference Datasets, linear regression, "Norris" (calibration of ozone monitors),
/// www.itl.nist.gov/div898/strd/lls/data/Norris.shtml. US Government work, public domain. That page itself was not read. Data and certified values were read in
/// two copies that name it as their source: model LS01 of the GAMS test library (July 2008), with all certified values to the digits here; and test_nist_norris
/// in scipy/stats/tests/test_stats.py of github.com/scipy/scipy, with all but the residual standard deviation.
/// </summary>
public static class Norris
{
    public static readonly double[] X =
    [
        0.2, 337.4, 118.2, 884.6, 10.1, 226.5, 666.3, 996.3, 448.6, 777.0, 558.2, 0.4, 0.6, 775.5, 666.9, 338.0, 447.5, 11.6,
        556.0, 228.1, 995.8, 887.6, 120.2, 0.3, 0.3, 556.8, 339.1, 887.2, 999.0, 779.0, 11.1, 118.3, 229.2, 669.1, 448.9, 0.5,
    ];

    public static readonly double[] Y =
    [
        0.1, 338.8, 118.1, 888.0, 9.2, 228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3, 0.1, 778.1, 668.8, 339.3, 448.9, 10.8,
        557.7, 228.3, 998.0, 888.8, 119.6, 0.3, 0.6, 557.6, 339.3, 888.0, 998.5, 778.9, 10.2, 117.6, 228.9, 668.4, 449.2, 0.2,
    ];

    /// <summary>Certified: the intercept and the slope, and their standard deviations.</summary>
    public static readonly (double Intercept, double Slope) Values = (-0.262323073774029, 1.00211681802045);

    public static readonly (double Intercept, double Slope) Deviations = (0.232818234301152, 0.000429796848199937);

    /// <summary>Certified: the residual standard deviation, with 34 degrees of freedom.</summary>
    public const double ResidualDeviation = 0.884796396144373;
}

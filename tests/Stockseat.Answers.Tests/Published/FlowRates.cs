namespace Stockseat.Answers.Tests.Published;

/// <summary>
/// NIST/SEMATECH e-Handbook of Statistical Methods, section 6.3.2.2, "Individuals Control Charts" (www.itl.nist.gov/div898/handbook): flow rates of ten
/// batches. A work of the United States government, in the public domain. From memory; that the limits follow from the values was checked.
/// </summary>
internal static class FlowRates
{
    public static readonly double[] Values = [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1];

    /// <summary>As printed: the mean to two decimals, the mean moving range and the limits to four. The limits are 50.81 ± 3 (1.8778)/1.128.</summary>
    public const double Mean = 50.81;

    public const double MeanMovingRange = 1.8778;

    public const double Upper = 55.8041;

    public const double Lower = 45.8159;
}

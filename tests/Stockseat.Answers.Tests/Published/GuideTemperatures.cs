namespace Stockseat.Answers.Tests.Published;

/// <summary>
/// Origin: JCGM 100:2008, "Guide to the expression of uncertainty in measurement" (GUM 1995 with minor corrections), 4.4.3: twenty temperatures, in degrees.
/// Numbers only; the text is copyright of the JCGM's member organizations. From memory; that the printed results follow from the values was checked.
/// </summary>
internal static class GuideTemperatures
{
    public static readonly double[] Values =
        [96.90, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07, 100.33, 100.42, 100.68, 100.95, 101.11, 101.20, 101.57, 101.84, 102.36, 102.72];

    /// <summary>As printed: the standard deviation of the values, and of their mean. Half a unit of the last place is 0.005.</summary>
    public static readonly (double Deviation, double OfMean) Printed = (1.49, 0.33);
}

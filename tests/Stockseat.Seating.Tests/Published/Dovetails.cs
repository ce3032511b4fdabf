namespace Stockseat.Seating.Tests.Published;

/// <summary>
/// Origin: two pages that calculate dovetails over pins: datumcalc.com (the example) and machinecalcs.com (1 + cot 30°). Titles and dates were not noted.
/// Licence: none stated; numbers only. Read, not from memory. The formula D(1 + cot α/2) + a is also on toolmonger.com and zpag.net. One more page, whose
/// address was not noted, has 1/sin in place of the cotangent: that is wrong for a dovetail and is not used.
/// </summary>
public static class Dovetails
{
    /// <summary>A flat of 1.0 with pins of 0.25 in a 60° dovetail: over the pins.</summary>
    public static (double Flat, double Pin, double Degrees, double OverPins) Example => (1.0, 0.25, 60, 1.6830);

    /// <summary>1 + cot 30°: what one pin of diameter 1 adds.</summary>
    public const double PerPin = 2.7320508;
}

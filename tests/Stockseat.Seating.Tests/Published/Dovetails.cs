namespace Stockseat.Seating.Tests.Published;

/// <summary>
/// Origin: two calculator pages for dovetails over pins (datumcalc.com, machinecalcs.com). Editions: as stored, undated. Licence: none stated; numbers only.
/// Read, not from memory. A third page contradicts them (over the pins by 1/sin instead of the cotangent): wrong, not used.
/// </summary>
public static class Dovetails
{
    /// <summary>A flat of 1.0 with pins of 0.25 in a 60° dovetail: over the pins.</summary>
    public static (double Flat, double Pin, double Degrees, double OverPins) Example => (1.0, 0.25, 60, 1.6830);

    /// <summary>1 + cot 30°: what one pin of diameter 1 adds.</summary>
    public const double PerPin = 2.7320508;
}

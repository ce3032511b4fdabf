namespace Stockseat.Seating.Tests.Published;

/// <summary>
/// Limits of error of hand gauges, µm. Origin: a one-page extract of DIN 862 and DIN 863 (read); the rule 4 + A/50 µm of DIN 863-1 for the lower end A of a
/// micrometer's range in mm, cut to whole µm, is from memory and gives every row. The step of a display, 0.29 of it (JCGM 100, F.2.2.1), is from memory.
/// </summary>
public static class GaugeLimits
{
    /// <summary>A caliper to 0.01 mm up to 200 mm: ±0.03 mm, standard uncertainty 0.0173 mm.</summary>
    public static readonly (double Limit, double Standard) Caliper = (0.03, 0.0173);

    /// <summary>A micrometer of 0 to 25 mm: ±0.004 mm, 0.0023 mm.</summary>
    public static readonly (double Limit, double Standard) Micrometer = (0.004, 0.0023);

    /// <summary>A display to 0.01 mm: 0.0029 mm.</summary>
    public static readonly (double Step, double Standard) Display = (0.01, 0.0029);
}

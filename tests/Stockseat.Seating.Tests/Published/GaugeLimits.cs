namespace Stockseat.Seating.Tests.Published;

/// <summary>
/// Limits of error of hand gauges. Origin: DIN 862 (calipers) and DIN 863 (micrometers), read in an extract of one page at scribd.com/document/564783692,
/// without date or edition; the standards themselves were not read. In that extract the rows of the calipers are run together, so which limit belongs to which
/// length is our reading of it. The rule 4 + A/50 µm of DIN 863-1, A the lower end of a micrometer's range in mm, cut to whole µm, is from memory and gives
/// every row of the extract. Standard uncertainties: the limit over √3, and 0.29 of the step of a display (JCGM 100:2008, 4.3.7 and F.2.2.1; clauses from
/// memory).
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

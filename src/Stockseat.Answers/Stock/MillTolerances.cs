namespace Stockseat.Answers.Stock;

/// <summary>
/// Tolerances of round bar as mills supply it, under short names of our own that follow the standards. The values are facts. They were read at web pages that
/// quote the standards (BarTolerances, in this project's tests, has the addresses), not in the standards: for an acceptance use the standards themselves.
/// </summary>
internal static class MillTolerances
{
    private const double InchMm = 25.4;

    /// <summary>
    /// EN 10060, hot rolled, ±mm from a listed size on. The class changes at the listed sizes (15 ± 0.4, 16 ± 0.5): a size between two of them, such as 51, has
    /// the class of the smaller one, which is the narrower.
    /// </summary>
    private static readonly (decimal From, decimal Each)[] En10060 =
    [
        (10, 0.4m), (16, 0.5m), (26, 0.6m), (36, 0.8m), (52, 1.0m), (85, 1.3m), (105, 1.5m), (125, 2.0m), (165, 2.5m), (220, 3.0m), (250, 4.0m),
    ];

    private const decimal En10060Greatest = 250;

    /// <summary>The out-of-round of EN 10060 is at most this part of the whole tolerance range.</summary>
    private const decimal En10060OutOfRound = 0.75m;

    /// <summary>
    /// BS 970-3:1991, bright drawn: over the size before, up to and including its own, mm; all minus. It is not ISO's h10: 0.085 where h10 has 0.084.
    /// </summary>
    private static readonly (decimal UpTo, decimal Minus)[] Bs970Drawn = [(18, 0.07m), (30, 0.085m), (50, 0.1m), (80, 0.12m), (100, 0.14m)];

    /// <summary>BS 970-3:1991, turned. The last step has no upper end.</summary>
    private static readonly (decimal UpTo, decimal Minus)[] Bs970Turned =
    [
        (18, 0.07m), (30, 0.085m), (50, 0.1m), (80, 0.12m), (120, 0.14m), (180, 0.16m), (250, 0.185m), (315, 0.21m), (400, 0.23m), (decimal.MaxValue, 0.25m),
    ];

    private const decimal Bs970BrightOver = 6;

    /// <summary>BS 970, hot rolled: re-rolled to 76 mm, from the primary mill above; ±mm, out-of-round.</summary>
    private static readonly (decimal UpTo, decimal Each, decimal OutOfRound)[] Bs970HotRolled =
    [
        (16, 0.2m, 0.3m), (26, 0.3m, 0.5m), (38, 0.4m, 0.6m), (51, 0.5m, 0.8m), (64, 0.6m, 0.9m), (76, 0.7m, 1.1m),
        (90, 1.3m, 2.0m), (120, 1.5m, 2.3m), (160, 2.0m, 3.0m), (200, 2.5m, 3.8m), (decimal.MaxValue, 3.0m, 4.5m),
    ];

    /// <summary>ASTM A29, hot wrought, in inches: over the size before, up to and including its own; over, under, out-of-round.</summary>
    private static readonly (double UpTo, double Plus, double Minus, double OutOfRound)[] A29 =
    [
        (5 / 16.0, 0.005, 0.005, 0.008), (7 / 16.0, 0.006, 0.006, 0.009), (5 / 8.0, 0.007, 0.007, 0.010), (7 / 8.0, 0.008, 0.008, 0.012),
        (1, 0.009, 0.009, 0.013), (1.125, 0.010, 0.010, 0.015), (1.25, 0.011, 0.011, 0.016), (1.375, 0.012, 0.012, 0.018),
        (1.5, 0.014, 0.014, 0.021), (2, 1 / 64.0, 1 / 64.0, 0.023), (2.5, 1 / 32.0, 0, 0.023), (3.5, 3 / 64.0, 0, 0.035),
        (4.5, 1 / 16.0, 0, 0.046), (5.5, 5 / 64.0, 0, 0.058), (6.5, 1 / 8.0, 0, 0.070), (8.25, 5 / 32.0, 0, 0.085),
        (9.5, 3 / 16.0, 0, 0.100), (10, 1 / 4.0, 0, 0.120),
    ];

    /// <summary>ASTM A29M: up to and including a size, ±mm, out-of-round; for larger sizes percentages of the size.</summary>
    private static readonly (decimal UpTo, decimal Each, decimal OutOfRound)[] A29M =
        [(7, 0.13m, 0.2m), (11, 0.15m, 0.22m), (15, 0.18m, 0.27m), (19, 0.2m, 0.3m)];

    private const decimal A29MGreatest = 250;

    /// <summary>A length in millimetres, as a decimal: a nominal of 18 mm is exactly 18, like the sizes of the steps.</summary>
    public static decimal Millimetres(double metres) => decimal.Round((decimal)metres * 1000, 9);

    /// <summary>The limits of EN 10060.</summary>
    /// <param name="nominalMetres">The nominal diameter in metres.</param>
    /// <param name="limits">The limits.</param>
    /// <returns>Null, or why there are none for that nominal.</returns>
    public static string? OfEn10060(double nominalMetres, out ToleranceLimits limits)
    {
        limits = default;
        var mm = Millimetres(nominalMetres);
        if (mm < En10060[0].From || mm > En10060Greatest)
        {
            return $"covers nominal diameters from {En10060[0].From} to {En10060Greatest} mm";
        }

        var each = Array.FindLast(En10060, r => r.From <= mm).Each;
        limits = Of(each, each, En10060OutOfRound * 2 * each);
        return null;
    }

    /// <summary>The limits of BS 970 for drawn bar.</summary>
    public static string? OfBs970Drawn(double nominalMetres, out ToleranceLimits limits) => Bright(Bs970Drawn, nominalMetres, out limits);

    /// <summary>The limits of BS 970 for turned bar.</summary>
    public static string? OfBs970Turned(double nominalMetres, out ToleranceLimits limits) => Bright(Bs970Turned, nominalMetres, out limits);

    /// <summary>The limits of BS 970 for hot rolled bar.</summary>
    public static string? OfBs970HotRolled(double nominalMetres, out ToleranceLimits limits)
    {
        var mm = Millimetres(nominalMetres);
        var row = Array.Find(Bs970HotRolled, r => mm <= r.UpTo);
        limits = Of(row.Each, row.Each, row.OutOfRound);
        return null;
    }

    /// <summary>The limits of ASTM A29, from its rows in inches.</summary>
    public static string? OfA29(double nominalMetres, out ToleranceLimits limits)
    {
        limits = default;
        var inches = (double)(Millimetres(nominalMetres) / (decimal)InchMm);
        var at = Array.FindIndex(A29, r => inches <= r.UpTo + 1e-9);
        if (at < 0)
        {
            return $"covers nominal diameters up to {A29[^1].UpTo} in";
        }

        var row = A29[at];
        limits = new(row.Plus * InchMm / 1000, row.Minus * InchMm / 1000, row.OutOfRound * InchMm / 1000);
        return null;
    }

    /// <summary>
    /// The limits of ASTM A29M. Its percentages, 1 % and 1.5 % of the size, are rounded to the nearest 0.1 mm, a half up: 25 mm has ± 0.3 mm.
    /// </summary>
    public static string? OfA29M(double nominalMetres, out ToleranceLimits limits)
    {
        limits = default;
        var mm = Millimetres(nominalMetres);
        if (mm > A29MGreatest)
        {
            return $"covers nominal diameters up to {A29MGreatest} mm";
        }

        var at = Array.FindIndex(A29M, r => mm <= r.UpTo);
        var (each, outOfRound) = at < 0 ? (Tenth(mm * 0.01m), Tenth(mm * 0.015m)) : (A29M[at].Each, A29M[at].OutOfRound);
        limits = Of(each, each, outOfRound);
        return null;
    }

    private static string? Bright((decimal UpTo, decimal Minus)[] steps, double nominalMetres, out ToleranceLimits limits)
    {
        limits = default;
        var mm = Millimetres(nominalMetres);
        var at = mm > Bs970BrightOver ? Array.FindIndex(steps, s => mm <= s.UpTo) : -1;
        if (at < 0)
        {
            return $"covers nominal diameters over {Bs970BrightOver} mm{(steps[^1].UpTo < decimal.MaxValue ? $", up to {steps[^1].UpTo} mm" : "")}";
        }

        limits = Of(0, steps[at].Minus, null);
        return null;
    }

    private static decimal Tenth(decimal mm) => decimal.Round(mm, 1, MidpointRounding.AwayFromZero);

    private static ToleranceLimits Of(decimal plusMm, decimal minusMm, decimal? outOfRoundMm) =>
        new((double)(plusMm / 1000), (double)(minusMm / 1000), (double?)(outOfRoundMm / 1000));
}

namespace Stockseat.Answers.Entries;

/// <summary>
/// Whether a body holds only what the service may have written. Whoever can write the file can write anything into a body, and readers index its lists, show
/// its lengths and add to its instants. The bounds are wider than those of any decision, so that everything that was ever written can be read for ever. Each
/// check says what is wrong, in words; null: nothing is. Each kind of entry says which checks it needs.
/// </summary>
internal static class BodyChecks
{
    /// <summary>In metres: far beyond any robot, and far below the size at which a number can't be written with its decimals.</summary>
    private const double Farthest = 1000;

    /// <summary>The longest time that a duration can hold, in seconds.</summary>
    private const double Longest = 9.2e11;

    /// <summary>Some thirty years, in seconds: no reading waits that long, and it can be subtracted from any instant.</summary>
    private const double LongestWait = 1e9;

    /// <summary>The most decimals, including the power of ten of the unit, with which a number that was read back can be compared.</summary>
    private const int MostDigits = 15;

    private const int DigestLength = 64;

    /// <summary>Checks that the instant is valid.</summary>
    public static string? At(EntryBody body) => EntryTime.TryParse(body.At, out _) ? null
        : $"at is '{Shown(body.At)}', which is not an instant from {EntryTime.FirstYear} to {EntryTime.LastYear}";

    /// <summary>Checks that the numbers of the entry can be served and read back.</summary>
    public static string? Served(string? unit, int decimals) =>
        unit is not null && ServedUnits.Find(unit) is null ? $"unit is '{Shown(unit)}', which is not a known unit"
        : decimals < 0 || decimals + Exponent(unit) > MostDigits ? $"decimals is {decimals}; 0 to {MostDigits - Exponent(unit)} was expected" : null;

    public static string? From(DiameterFrom? from) => from is null ? null
        : from.Readings < 1 ? $"from.readings is {from.Readings}; 1 or more was expected" : Gauge(from.Limits)
        ?? Metre("from.agreement", from.Agreement) ?? Metre("from.deviation", from.Deviation);

    public static string? Gauge(GaugeLimits? limits) =>
        limits is null ? null : Metre("limitsOfError", limits.LimitsOfError) ?? Metre("resolution", limits.Resolution)
            ?? Metre("repeatability", limits.Repeatability);

    public static string? Terms(LotTerms? terms) => terms is null ? null
        : Metre("lotTerms.nominal", terms.Nominal) ?? Metre("lotTerms.plus", terms.Plus) ?? Metre("lotTerms.minus", terms.Minus)
        ?? Metre("lotTerms.outOfRound", terms.OutOfRound);

    public static string? Sure(AnswerUncertainty? u) => u is null ? null
        : Metres("uncertainty", [u.Along, u.Across, u.AlongWorst ?? 0, u.AcrossWorst ?? 0], 4);

    public static string? Readings(IReadOnlyList<double>? readings) => readings is null ? null
        : readings.Count == 0 ? "readings is empty" : readings.Select(r => Size("a reading", r)).FirstOrDefault(f => f is not null);

    public static string? Nest(int[] nest) => Count("nest", nest.Length, 2)
        ?? (nest[0] < 0 || nest[1] < 0 ? $"nest is {nest[0]},{nest[1]}; two numbers of 0 or more were expected" : null);

    public static string? OfPurpose(string purpose) => purpose is "pick" or "place" ? null : $"purpose is '{Shown(purpose)}'; pick or place was expected";

    public static string? Digest(string? digest) => digest?.Length == DigestLength ? null
        : $"digest has {digest?.Length ?? 0} digits; {DigestLength} were expected";

    public static string? Missing(string name, string? text) => text is null ? $"{name} is missing" : null;

    public static string? Texts(string name, IEnumerable<string?>? texts) => texts?.Any(t => t is null) == true ? $"{name} has null in place of a text" : null;

    public static string? Metres(string name, double[] values, int count) =>
        Count(name, values.Length, count) ?? values.Select(v => Metre(name, v)).FirstOrDefault(f => f is not null);

    public static string? Count(string name, int count, int expected) => count == expected ? null : $"{name} has {count} values; {expected} were expected";

    public static string? Metre(string name, double? metres) => metres is null || Math.Abs(metres.Value) < Farthest ? null
        : Out(name, metres.Value, $"between -{Farthest} and {Farthest} m");

    public static string? Size(string name, double metres) => metres / 2 > 0 && metres < Farthest ? null
        : Out(name, metres, $"above 0 and below {Farthest} m");

    public static string? Seconds(string name, double? seconds) => seconds is null or >= 0 and <= Longest ? null
        : Out(name, seconds.Value, $"from 0 to {Longest} s");

    /// <summary>The time is subtracted from an instant.</summary>
    public static string? Waited(double? seconds) => seconds is null or >= 0 and <= LongestWait ? null
        : Out("waited", seconds.Value, $"from 0 to {LongestWait} s");

    private static int Exponent(string? unit) => unit is null ? 0 : (int)ServedUnits.Find(unit)!.Value;

    private static string Out(string name, double value, string expected) =>
        string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{name} is {value}; {expected} was expected");

    private static string Shown(string text) => text.Length > 40 ? text[..40] + "..." : text;
}

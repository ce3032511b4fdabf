namespace Stockseat.Answers.Entries;

/// <summary>
/// Whether a body that was read holds what the service may have written: whoever can write the file can write anything into a body, and whoever reads it
/// may index its lists, show its lengths and add to its instants. Wider than any decision, so that what was ever written is read for ever.
/// Each check says what is wrong, in words; null: nothing. Which of them a kind of entry needs, the kind says.
/// </summary>
internal static class BodyChecks
{
    /// <summary>Far beyond any robot, in metres, and far below where a number can't be written with its decimals.</summary>
    private const double Farthest = 1000;

    /// <summary>The longest time that a duration can hold, in seconds.</summary>
    private const double Longest = 9.2e11;

    /// <summary>Some thirty years, in seconds: no reading waits as long, and every instant has room for it.</summary>
    private const double LongestWait = 1e9;

    /// <summary>The most decimals, with the power of ten of the unit, that a number read back can be compared at.</summary>
    private const int MostDigits = 15;

    private const int DigestLength = 64;

    /// <summary>That its instant is one.</summary>
    public static string? At(EntryBody body) => EntryTime.TryParse(body.At, out _) ? null
        : $"at is '{Shown(body.At)}', which is no instant from {EntryTime.FirstYear} to {EntryTime.LastYear}";

    /// <summary>That a number of the entry can be served and read back.</summary>
    public static string? Served(string? unit, int decimals) =>
        unit is not null && ServedUnits.Find(unit) is null ? $"unit is '{Shown(unit)}', which is no unit here"
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
        : readings.Count == 0 ? "readings are none" : readings.Select(r => Size("a reading", r)).FirstOrDefault(f => f is not null);

    public static string? Nest(int[] nest) => Count("nest", nest.Length, 2)
        ?? (nest[0] < 0 || nest[1] < 0 ? $"nest is {nest[0]},{nest[1]}; 0 or more each was expected" : null);

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
        : Out(name, seconds.Value, "0 s or more, and what a duration can hold,");

    /// <summary>It is taken off an instant.</summary>
    public static string? Waited(double? seconds) => seconds is null or >= 0 and <= LongestWait ? null
        : Out("waited", seconds.Value, "0 s or more, and less than a service runs,");

    private static int Exponent(string? unit) => unit is null ? 0 : (int)ServedUnits.Find(unit)!.Value;

    private static string Out(string name, double value, string expected) =>
        string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{name} is {value}; {expected} was expected");

    private static string Shown(string text) => text.Length > 40 ? text[..40] + "..." : text;
}

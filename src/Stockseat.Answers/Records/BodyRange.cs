namespace Stockseat.Answers.Records;

/// <summary>
/// Whether a body that was read holds what the service may have written: whoever can write the file can write anything into a body, and whoever reads it
/// may index its lists, show its lengths and add to its instants. Wider than any decision, so that what was ever written is read for ever.
/// </summary>
internal static class BodyRange
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

    /// <summary>What no body of the service holds, in words; null when all of it may be.</summary>
    public static string? Fault(EntryBody body) =>
        !EntryTime.TryParse(body.At, out _) ? $"at is '{Shown(body.At)}', which is no instant from {EntryTime.FirstYear} to {EntryTime.LastYear}"
        : body switch
        {
            AnswerBody b => Answer(b),
            RefusalBody b => Refusal(b),
            MeasurementBody b => Measurement(b),
            ConfirmationBody b => OfPurpose(b.Purpose) ?? Metres("shiftBase", b.ShiftBase, 3) ?? Texts("readBack", b.ReadBack?.Values),
            RecheckBody b => Recheck(b),
            RevisionAdoptedBody b => Adopted(b),
            RevisionRejectedBody b => Texts("faults", b.Faults),
            LotDescribedBody b => Terms(b.LotTerms),
            ClockStepBody b => Seconds("seconds", Math.Abs(b.Seconds)),
            RolledOverBody b => Carried(b.ReadCarried()),
            SnapshotBody b => Carried(b.ReadCarried()),
            _ => null,
        };

    private static string? Answer(AnswerBody b) =>
        Missing("fixture", b.Fixture) ?? Digest(b.Digest) ?? OfPurpose(b.Purpose) ?? Nest(b.Nest) ?? Size("diameter", b.Diameter)
        ?? Seconds("age", b.Age) ?? From(b.From) ?? Terms(b.LotTerms) ?? Metre("nominal", b.Nominal) ?? Metre("within", b.Within)
        ?? Metre("standOff", b.StandOff)
        ?? Metres("position", b.Position, 3) ?? Metres("orientation", b.Orientation, 4) ?? Metres("shiftBase", b.ShiftBase, 3)
        ?? Metres("shiftOrigin", b.ShiftOrigin, 3)
        ?? Sure(b.Uncertainty) ?? Served(b);

    private static string? Served(AnswerBody b) =>
        b.Unit is { } unit && ServedUnits.Find(unit) is null ? $"unit is '{Shown(unit)}', which is no unit here"
        : b.Decimals < 0 || b.Decimals + (int)b.ServedIn > MostDigits ? $"decimals is {b.Decimals}; 0 to {MostDigits - (int)b.ServedIn} was expected" : null;

    private static string? Refusal(RefusalBody b) =>
        (b.Nest is { } nest ? Count("nest", nest.Length, 2) : null) ?? Metre("diameter", b.Diameter) ?? Readings(b.Readings) ?? From(b.From)
        ?? Sure(b.Uncertainty) ?? Metre("agreement", b.Agreement) ?? Terms(b.LotTerms) ?? Metre("nominal", b.Nominal) ?? Metre("within", b.Within)
        ?? Metre("masterWithin", b.MasterWithin)
        ?? (b.Found is { } found ? Metres("found", found, 3) : null) ?? Texts("limits", b.Limits?.Values) ?? Texts("readBack", b.ReadBack?.Values)
        ?? (b.Number == (int)Reasons.Reason.ReadingsDisagree && b.Readings is null ? "readings are missing" : null);

    private static string? Measurement(MeasurementBody b) =>
        Size("diameter", b.Diameter) ?? Readings(b.Readings) ?? Metre("spread", b.Spread) ?? Metre("agreement", b.Agreement) ?? Gauge(b.Limits)
        ?? Terms(b.LotTerms) ?? Seconds("freshFor", b.FreshFor) ?? Waited(b.Waited);

    private static string? Recheck(RecheckBody b) =>
        Nest(b.Nest) ?? Size("master", b.Master) ?? Metre("masterWithin", b.MasterWithin) ?? Metres("predicted", b.Predicted, 3) ?? Metres("found", b.Found, 3)
        ?? Metres("missBase", b.MissBase, 3) ?? Metres("miss", [b.Miss.Along, b.Miss.Across, b.Miss.OutOfPlan], 3) ?? Sure(b.Expected)
        ?? Metre("limit", b.Limit);

    private static string? Adopted(RevisionAdoptedBody b) => Missing("fixture", b.Fixture) ?? Digest(b.Digest)
        ?? (b.Content.ValueKind == System.Text.Json.JsonValueKind.Object ? null : "content is no object");

    private static string? Carried(IEnumerable<EntryBody> bodies)
    {
        try
        {
            foreach (var _ in bodies)
            {
            }

            return null;
        }
        catch (System.Text.Json.JsonException e)
        {
            return $"what it carries can't be read: {e.Message}";
        }
    }

    private static string? From(DiameterFrom? from) => from is null ? null
        : from.Readings < 1 ? $"from.readings is {from.Readings}; 1 or more was expected" : Gauge(from.Limits)
        ?? Metre("from.agreement", from.Agreement) ?? Metre("from.deviation", from.Deviation);

    private static string? Gauge(GaugeLimits? limits) =>
        limits is null ? null : Metre("limitsOfError", limits.LimitsOfError) ?? Metre("resolution", limits.Resolution)
            ?? Metre("repeatability", limits.Repeatability);

    private static string? Terms(LotTerms? terms) => terms is null ? null
        : Metre("lotTerms.nominal", terms.Nominal) ?? Metre("lotTerms.plus", terms.Plus) ?? Metre("lotTerms.minus", terms.Minus)
        ?? Metre("lotTerms.outOfRound", terms.OutOfRound);

    private static string? Sure(AnswerUncertainty? u) => u is null ? null
        : Metres("uncertainty", [u.Along, u.Across, u.AlongWorst ?? 0, u.AcrossWorst ?? 0], 4);

    private static string? Readings(IReadOnlyList<double>? readings) => readings is null ? null
        : readings.Count == 0 ? "readings are none" : readings.Select(r => Size("a reading", r)).FirstOrDefault(f => f is not null);

    private static string? Nest(int[] nest) => Count("nest", nest.Length, 2)
        ?? (nest[0] < 0 || nest[1] < 0 ? $"nest is {nest[0]},{nest[1]}; 0 or more each was expected" : null);

    private static string? OfPurpose(string purpose) => purpose is "pick" or "place" ? null : $"purpose is '{Shown(purpose)}'; pick or place was expected";

    private static string? Digest(string? digest) => digest?.Length == DigestLength ? null
        : $"digest has {digest?.Length ?? 0} digits; {DigestLength} were expected";

    private static string? Missing(string name, string? text) => text is null ? $"{name} is missing" : null;

    private static string? Texts(string name, IEnumerable<string?>? texts) => texts?.Any(t => t is null) == true ? $"{name} has null in place of a text" : null;

    private static string? Metres(string name, double[] values, int count) =>
        Count(name, values.Length, count) ?? values.Select(v => Metre(name, v)).FirstOrDefault(f => f is not null);

    private static string? Count(string name, int count, int expected) => count == expected ? null : $"{name} has {count} values; {expected} were expected";

    private static string? Metre(string name, double? metres) => metres is null || Math.Abs(metres.Value) < Farthest ? null
        : Out(name, metres.Value, $"between -{Farthest} and {Farthest} m");

    private static string? Size(string name, double metres) => metres / 2 > 0 && metres < Farthest ? null
        : Out(name, metres, $"above 0 and below {Farthest} m");

    private static string? Seconds(string name, double? seconds) => seconds is null or >= 0 and <= Longest ? null
        : Out(name, seconds.Value, "0 s or more, and what a duration can hold,");

    /// <summary>It is taken off an instant.</summary>
    private static string? Waited(double? seconds) => seconds is null or >= 0 and <= LongestWait ? null
        : Out("waited", seconds.Value, "0 s or more, and less than a service runs,");

    private static string Out(string name, double value, string expected) =>
        string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{name} is {value}; {expected} was expected");

    private static string Shown(string text) => text.Length > 40 ? text[..40] + "..." : text;
}

using System.Globalization;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.State;
using Stockseat.Audit.Showing;
using Stockseat.Seating.Quantities;

namespace Stockseat.Audit.Reviewing.Facts;

/// <summary>How findings write instants, lengths and counts.</summary>
/// <param name="around">The instant that is reviewed: other days are named.</param>
/// <param name="display">The unit of the lengths, and the zone of the instants.</param>
internal sealed class FindingText(DateTimeOffset around, Display display)
{
    /// <summary>How many serials a sentence names.</summary>
    private const int Named = 6;

    /// <summary>All instants have the offset that the zone has at the reviewed instant, as in the report.</summary>
    private readonly TimeSpan _offset = display.Zone.GetUtcOffset(around);

    /// <summary>How the offset is written: UTC, UTC+01:00.</summary>
    private string Zone => display.Times.IsUtc ? "UTC" : $"UTC{around.ToOffset(_offset).ToString("zzz", CultureInfo.InvariantCulture)}";

    /// <summary>The time of day; with the date where it is another day.</summary>
    public string Time(DateTimeOffset at)
    {
        var (here, there) = (around.ToOffset(_offset), at.ToOffset(_offset));
        return $"{there.ToString(there.Date == here.Date ? "HH:mm:ss" : "yyyy-MM-dd HH:mm:ss", CultureInfo.InvariantCulture)} {Zone}";
    }

    /// <summary>The day.</summary>
    public string Date(DateTimeOffset at) => at.ToOffset(_offset).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    public string Time(EntryBody body) => Time(ReviewFacts.At(body));

    /// <summary>A length.</summary>
    public string Length(double metres) => display.Length.FixedText(metres);

    /// <summary>Two lengths, with as many decimals as it takes to tell them apart.</summary>
    public (string One, string Other) Apart(double oneMetres, double otherMetres) => display.Length.Apart(oneMetres, otherMetres);

    /// <summary>A recheck that is lacking, as what to do.</summary>
    public string Lack(Proof.Lack lack) => Proof.Said(lack, display.Length);

    /// <summary>A shift in base with the names of its numbers.</summary>
    public string Shift(double[] b) =>
        $"bx {display.Length.Fixed(b[0])}, by {display.Length.Fixed(b[1])}, bz {display.Length.Fixed(b[2])} {display.Length}";

    public static string Whole(long number) => number.ToString(CultureInfo.InvariantCulture);

    /// <summary>One answer, 2 answers.</summary>
    public static string Count(long number, string one, string? more = null) => number == 1 ? $"one {one}" : $"{Whole(number)} {more ?? one + "s"}";

    /// <summary>entry 4, entries 4 and 5.</summary>
    public static string Entries(IReadOnlyList<long> serials) => $"{(serials.Count == 1 ? "entry" : "entries")} {Serials(serials)}";

    /// <summary>4, 4 and 5.</summary>
    public static string Serials(IReadOnlyList<long> serials) => And(serials.Count <= Named
        ? [.. serials.Select(Whole)]
        : [.. serials.Take(Named - 1).Select(Whole), $"{Whole(serials.Count - Named + 1)} more"]);

    /// <summary>a, b and c.</summary>
    public static string And(IReadOnlyList<string> parts) =>
        parts.Count < 2 ? string.Concat(parts) : $"{string.Join(", ", parts.Take(parts.Count - 1))} and {parts[^1]}";

    /// <summary>Who asks for shifts and confirms them.</summary>
    public static string Controller(EntryBody body) => body.Client is { } name ? $"controller {name}" : "an unnamed controller";

    /// <summary>Where an answer's diameter comes from.</summary>
    public string Diameter(AnswerBody answer) => answer.Measurement is { } serial
        ? $"{Length(answer.Diameter)} of measurement {Whole(serial)}{OfLot(answer.Lot)}"
        : $"{Length(answer.Diameter)}{OfLot(answer.Lot)} as the controller stated it";

    public static string OfLot(string? lot) => lot is null ? "" : $" of lot {lot}";

    /// <summary>The text with a capital letter at its beginning.</summary>
    public static string Begun(string text) => $"{char.ToUpperInvariant(text[0])}{text[1..]}";

    /// <summary>Seconds, minutes or hours, as people say them.</summary>
    public static string Span(TimeSpan span) => span.Duration() switch
    {
        { TotalSeconds: < 120 } s => $"{Rounded.Short(s.TotalSeconds, 3)} s",
        { TotalMinutes: < 120 } s => $"{Rounded.Short(s.TotalMinutes, 0)} min",
        var s => $"{Rounded.Short(s.TotalHours, 1)} h",
    };
}

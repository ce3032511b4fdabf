using System.Globalization;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;

namespace Stockseat.Audit.Reviewing.Facts;

/// <summary>How findings write instants, lengths and counts.</summary>
/// <param name="around">The instant that is reviewed: other days are named.</param>
internal sealed class FindingText(DateTimeOffset around)
{
    /// <summary>Lengths are written to the micrometre, as answers are served unless a form says otherwise.</summary>
    private const int Decimals = 3;

    /// <summary>The most decimals of a millimetre that two lengths need to be told apart: answers have 12 of a metre at most.</summary>
    private const int MostDecimals = 9;

    /// <summary>How many serials a sentence names.</summary>
    private const int Named = 6;

    /// <summary>The time of day; with the date where it is another day.</summary>
    public string Time(DateTimeOffset at) =>
        at.UtcDateTime.ToString(at.UtcDateTime.Date == around.UtcDateTime.Date ? "HH:mm:ss 'UTC'" : "yyyy-MM-dd HH:mm:ss 'UTC'", CultureInfo.InvariantCulture);

    public string Time(EntryBody body) => Time(ReviewFacts.At(body));

    /// <summary>A length in millimetres; -0.000 is 0.000.</summary>
    public static string Mm(double metres) => $"{Number(metres * 1000, Decimals)} mm";

    /// <summary>Two lengths in millimetres, with as many decimals as it takes to tell them apart.</summary>
    public static (string One, string Other) Apart(double oneMetres, double otherMetres)
    {
        for (var decimals = Decimals; ; decimals++)
        {
            var (one, other) = (Number(oneMetres * 1000, decimals), Number(otherMetres * 1000, decimals));
            if (one != other || decimals == MostDecimals)
            {
                return ($"{one} mm", $"{other} mm");
            }
        }
    }

    /// <summary>A shift in base with the names of its numbers.</summary>
    public static string Shift(double[] b) => $"bx {Number(b[0] * 1000, Decimals)}, by {Number(b[1] * 1000, Decimals)}, bz {Number(b[2] * 1000, Decimals)} mm";

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
    public static string Diameter(AnswerBody answer) => answer.Measurement is { } serial
        ? $"{Mm(answer.Diameter)} of measurement {Whole(serial)}{OfLot(answer.Lot)}"
        : $"{Mm(answer.Diameter)}{OfLot(answer.Lot)} as the controller stated it";

    public static string OfLot(string? lot) => lot is null ? "" : $" of lot {lot}";

    /// <summary>The text with a capital letter at its beginning.</summary>
    public static string Begun(string text) => $"{char.ToUpperInvariant(text[0])}{text[1..]}";

    /// <summary>Seconds, minutes or hours, as people say them.</summary>
    public static string Span(TimeSpan span) => span.Duration() switch
    {
        { TotalSeconds: < 120 } s => $"{s.TotalSeconds.ToString("0.###", CultureInfo.InvariantCulture)} s",
        { TotalMinutes: < 120 } s => $"{s.TotalMinutes.ToString("0", CultureInfo.InvariantCulture)} min",
        var s => $"{s.TotalHours.ToString("0.#", CultureInfo.InvariantCulture)} h",
    };

    private static string Number(double value, int decimals)
    {
        var text = value.ToString($"F{decimals}", CultureInfo.InvariantCulture);
        return text[0] == '-' && text.AsSpan(1).IndexOfAnyExcept('0', '.') < 0 ? text[1..] : text;
    }
}

namespace Stockseat.Answers.Reasons;

/// <summary>A refusal: a value, not an exception.</summary>
/// <param name="Reason">Why.</param>
/// <param name="Text">What was refused, which value, the limit, and what to do next.</param>
/// <param name="Limits">The numbers behind it, by name; null when there are none.</param>
public sealed record Refusal(Reason Reason, string Text, IReadOnlyDictionary<string, string>? Limits = null)
{
    private const int LongestShown = 40;

    /// <summary>How many characters of a person's text are repeated: it has to fit a line and a status.</summary>
    private const int LongestSaid = 80;

    /// <summary>The information about its reason.</summary>
    public ReasonInfo Info => ReasonInfo.Of(Reason);

    /// <summary>A refusal whose text ends with the reason's advice.</summary>
    public static Refusal Of(Reason reason, string what, params (string Name, string Value)[] limits) => new(
        reason, $"{what}; {ReasonInfo.Of(reason).Advice}", limits.Length == 0 ? null : limits.ToDictionary(l => l.Name, l => l.Value));

    /// <summary>A client's text for a message: short, printable ASCII, and without the sign by which a controller's parser finds a coordinate.</summary>
    public static string Shown(ReadOnlySpan<char> text)
    {
        var shown = string.Create(Math.Min(text.Length, LongestShown), text, static (span, source) =>
        {
            for (var i = 0; i < span.Length; i++)
            {
                span[i] = source[i] is >= ' ' and <= '~' and not '=' ? source[i] : '?';
            }
        });
        return text.Length > LongestShown ? $"{shown}..." : shown;
    }

    /// <summary>A person's text, cut when it is long.</summary>
    public static string Cut(string text)
    {
        if (text.Length <= LongestSaid)
        {
            return text;
        }

        // Do not cut between the two halves of a surrogate pair.
        var end = char.IsHighSurrogate(text[LongestSaid - 1]) ? LongestSaid - 1 : LongestSaid;
        return text[..end] + "...";
    }
}

using Stockseat.Seating.Quantities;

namespace Stockseat.Answers.Reasons;

/// <summary>A refusal: a value, not an exception.</summary>
/// <param name="Reason">Why.</param>
/// <param name="Text">What was refused, which value, the limit, and what to do next; lengths in millimetres.</param>
/// <param name="Limits">The numbers behind it, by name; null when there are none.</param>
public sealed record Refusal(Reason Reason, string Text, IReadOnlyDictionary<string, string>? Limits = null)
{
    /// <summary>
    /// The limit that says that the configuration requires more of this client; a replay, which does not know it, takes such a refusal as given.
    /// </summary>
    public const string Required = "required";

    private const int LongestShown = 40;

    /// <summary>How many characters of a person's text are repeated: it has to fit a line and a status.</summary>
    private const int LongestSaid = 80;

    /// <summary>The text with its lengths in a unit; null: it contains no length.</summary>
    private readonly Func<LengthUnit, string>? _said;

    private Refusal(Refusal refusal, Func<LengthUnit, string>? said)
        : this(refusal.Reason, refusal.Text, refusal.Limits) => _said = said;

    /// <summary>The information about its reason.</summary>
    public ReasonInfo Info => ReasonInfo.Of(Reason);

    /// <summary>A refusal whose text ends with the reason's advice.</summary>
    public static Refusal Of(Reason reason, string what, params (string Name, string Value)[] limits) => new(
        reason, $"{what}; {ReasonInfo.Of(reason).Advice}", limits.Length == 0 ? null : limits.ToDictionary(l => l.Name, l => l.Value));

    /// <summary>The same for a text that contains lengths.</summary>
    /// <param name="reason">The reason.</param>
    /// <param name="what">The text, with its lengths in a unit.</param>
    /// <param name="limits">The numbers behind it, in metres.</param>
    public static Refusal Of(Reason reason, Func<LengthUnit, string> what, params (string Name, string Value)[] limits) =>
        new(Of(reason, what(LengthUnit.Millimetre), limits), unit => $"{what(unit)}; {ReasonInfo.Of(reason).Advice}");

    /// <summary>A refusal whose text contains lengths and already says what to do next.</summary>
    public static Refusal Told(Reason reason, Func<LengthUnit, string> text) => new(new(reason, text(LengthUnit.Millimetre)), text);

    /// <summary>The text with its lengths in a unit.</summary>
    public string In(LengthUnit unit) => unit == LengthUnit.Millimetre || _said is null ? Text : _said(unit);

    /// <summary>The same refusal with more text at the end.</summary>
    public Refusal And(string more) => new(this with { Text = Text + more }, _said is { } said ? unit => said(unit) + more : null);

    /// <summary>Two refusals are equal when their reason, text and limits are.</summary>
    public bool Equals(Refusal? other) => other is not null && (Reason, Text) == (other.Reason, other.Text) && Equals(Limits, other.Limits);

    /// <inheritdoc />
    public override int GetHashCode() => HashCode.Combine(Reason, Text);

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

    /// <summary>A length in a message as its sender wrote it, with the length in the reader's unit after it when that unit is another one.</summary>
    /// <param name="sent">What was sent; null: a number of metres, which is shown only in the reader's unit.</param>
    /// <param name="told">The length in the reader's unit.</param>
    /// <param name="unit">The reader's unit.</param>
    public static string Sent(string? sent, string told, LengthUnit unit) =>
        sent is null ? told : UnitOf(sent).SequenceEqual(unit.Symbol) ? Shown(sent) : $"{Shown(sent)} ({told})";

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

    /// <summary>The letters at its end: a gauge writes its numbers in many ways.</summary>
    private static ReadOnlySpan<char> UnitOf(string sent) => sent.AsSpan(sent.AsSpan().LastIndexOfAnyExcept("muin") + 1);
}

using Stockseat.Answers.Reasons;
using Stockseat.Service.Texts;

namespace Stockseat.Service.Lines;

/// <summary>A line as read: a verb and its values, or why it is not a request. A tag is kept even then, so that the refusal can echo it.</summary>
public sealed class LineRequest
{
    private readonly Dictionary<string, string> _values = new(StringComparer.Ordinal);

    private LineRequest(string verb) => Verb = verb;

    /// <summary>The verb.</summary>
    public string Verb { get; }

    /// <summary>What is wrong with the line's form; null when nothing is.</summary>
    public Refusal? Fault { get; private set; }

    /// <summary>The tag, when one was sent that can be echoed.</summary>
    public string? Tag => _values.TryGetValue("tag", out var tag) && NameText.IsName(tag) ? tag : null;

    /// <summary>The keys sent.</summary>
    public IEnumerable<string> Keys => _values.Keys;

    /// <summary>The value of a key; null when it was not sent.</summary>
    public string? this[string key] => _values.GetValueOrDefault(key);

    /// <summary>Reads a line of printable ASCII: verb, then key=value in any order; a value with spaces stands in quotes.</summary>
    public static LineRequest Parse(string line)
    {
        var rest = line.AsSpan().Trim(' ');
        var end = rest.IndexOf(' ');
        var request = new LineRequest((end < 0 ? rest : rest[..end]).ToString());
        rest = end < 0 ? default : rest[end..];
        if (request.Verb.Length == 0)
        {
            request.Fault = Refusal.Of(Reason.RequestMalformed, "the line is empty");
        }

        while (!(rest = rest.TrimStart(' ')).IsEmpty)
        {
            rest = request.TakePair(rest);
        }

        return request;
    }

    private ReadOnlySpan<char> TakePair(ReadOnlySpan<char> rest)
    {
        var word = rest.IndexOf(' ');
        var equals = rest.IndexOf('=');
        if (equals <= 0 || (word >= 0 && word < equals))
        {
            var stray = word < 0 ? rest : rest[..word];
            Fault ??= Refusal.Of(Reason.RequestMalformed, $"'{Refusal.Shown(stray)}' is not key=value");
            return word < 0 ? default : rest[word..];
        }

        var key = rest[..equals].ToString();
        rest = rest[(equals + 1)..];
        var quoted = rest.StartsWith("\"");
        var end = quoted ? rest[1..].IndexOf('"') + 1 : rest.IndexOf(' ');
        if (quoted && end == 0)
        {
            Fault ??= Refusal.Of(Reason.RequestMalformed, $"the quote after {Refusal.Shown(key)} is not closed");
            return default;
        }

        var value = quoted ? rest[1..end] : end < 0 ? rest : rest[..end];
        rest = quoted ? rest[(end + 1)..] : end < 0 ? default : rest[end..];
        if (quoted && !rest.IsEmpty && rest[0] != ' ')
        {
            Fault ??= Refusal.Of(Reason.RequestMalformed, $"there is text right after the closing quote of {Refusal.Shown(key)}");
        }
        else if (!quoted && value.Contains('"'))
        {
            Fault ??= Refusal.Of(Reason.RequestMalformed, $"there is a quote inside the value of {Refusal.Shown(key)}; quotes go around the complete value");
        }

        if (!_values.TryAdd(key, value.ToString()))
        {
            Fault ??= Refusal.Of(Reason.KeyDoubled, $"{Refusal.Shown(key)} appears twice");
        }

        return rest;
    }
}

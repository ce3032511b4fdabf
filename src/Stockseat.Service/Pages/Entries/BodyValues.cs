using System.Text.Json;

namespace Stockseat.Service.Pages.Entries;

/// <summary>The values of a body, as the ledger holds them: one line for each, with the names that lead to it.</summary>
public static class BodyValues
{
    /// <summary>The most values that are shown: the content of a revision has about a hundred, what a snapshot carries may have millions.</summary>
    public const int Most = 400;

    private const int LongestText = 500;

    /// <summary>The values in their order, and whether there are more.</summary>
    /// <exception cref="JsonException">The body is not JSON.</exception>
    public static (IReadOnlyList<(string Name, string Text)> Values, bool More) Of(string body)
    {
        using var read = JsonDocument.Parse(body);
        var values = Walk("", read.RootElement).Take(Most + 1).ToList();
        return values.Count > Most ? (values[..Most], true) : (values, false);
    }

    private static IEnumerable<(string Name, string Text)> Walk(string name, JsonElement value) => value.ValueKind switch
    {
        JsonValueKind.Object => value.EnumerateObject().SelectMany(p => Walk(name.Length == 0 ? p.Name : $"{name}.{p.Name}", p.Value)),
        JsonValueKind.Array when value.EnumerateArray().Any(e => e.ValueKind is JsonValueKind.Object or JsonValueKind.Array) =>
            value.EnumerateArray().SelectMany((e, i) => Walk(FormattableString.Invariant($"{name}[{i}]"), e)),
        JsonValueKind.Array => [(name, Cut(string.Join(", ", value.EnumerateArray().Take(LongestText).Select(Text))))],
        _ => [(name, Cut(Text(value)))],
    };

    /// <summary>Numbers, true and false as they are written.</summary>
    private static string Text(JsonElement value) => value.ValueKind == JsonValueKind.String ? value.GetString()! : value.GetRawText();

    private static string Cut(string text) => text.Length > LongestText ? text[..LongestText] + "..." : text;
}

using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Unicode;

namespace Stockseat.Fixtures.Reading;

/// <summary>
/// One object of a JSON file, read strictly: a key that nobody asked for, a doubled key, a wrong kind of value is a fault, and reading
/// goes on so that all faults come at once. What was read is kept as resolved values in <see cref="Resolved"/>.
/// </summary>
public sealed partial class Section
{
    private const int Deepest = 16;

    private readonly Dictionary<string, JsonElement> _values = new(StringComparer.Ordinal);
    private readonly HashSet<string> _asked = new(StringComparer.Ordinal);
    private readonly Dictionary<string, string> _written;
    private readonly bool _si;

    private Section(JsonElement element, string path, Faults faults, Dictionary<string, string> written, bool si)
    {
        Path = path;
        Faults = faults;
        _written = written;
        _si = si;
        foreach (var property in element.EnumerateObject())
        {
            if (!_values.TryAdd(property.Name, property.Value))
            {
                faults.Add(At(property.Name), "the key is there twice; keep one");
            }
        }
    }

    /// <summary>Where this object is in the file.</summary>
    public string Path { get; }

    /// <summary>Where faults go.</summary>
    public Faults Faults { get; }

    /// <summary>The values read, in SI units, over the keys present only.</summary>
    public JsonObject Resolved { get; } = [];

    /// <summary>The quantities of the whole file that were read so far, by path, each as the file wrote it; none where they are bare SI numbers.</summary>
    public IReadOnlyDictionary<string, string> Written => _written;

    /// <summary>The keys in the file, in its order.</summary>
    public IEnumerable<string> Keys => _values.Keys;

    /// <summary>Parses a whole file: JSON with comments, one object.</summary>
    /// <param name="utf8">The file's bytes.</param>
    /// <param name="faults">Where faults go.</param>
    /// <param name="si">Whether quantities are bare SI numbers, as in the ledger, and not texts with units.</param>
    public static Section? Parse(ReadOnlyMemory<byte> utf8, Faults faults, bool si = false)
    {
        if (utf8.Span.StartsWith("\uFEFF"u8))
        {
            utf8 = utf8[3..];
        }

        try
        {
            var options = new JsonDocumentOptions { CommentHandling = JsonCommentHandling.Skip, MaxDepth = Deepest };
            var root = JsonDocument.Parse(utf8, options).RootElement;
            if (NoText(utf8.Span) is { } fault)
            {
                faults.Add("", fault);
                return null;
            }

            if (root.ValueKind == JsonValueKind.Object)
            {
                return new Section(root, "", faults, new(StringComparer.Ordinal), si);
            }

            faults.Add("", $"holds {Kind(root)}; an object {{ … }} was expected");
        }
        catch (JsonException e)
        {
            faults.Add("", $"is no JSON at line {e.LineNumber + 1}, byte {e.BytePositionInLine + 1}: it is cut off or mistyped there");
        }

        return null;
    }

    /// <summary>Whether the key is there; asking makes it known.</summary>
    public bool Has(string key)
    {
        _asked.Add(key);
        return _values.ContainsKey(key);
    }

    /// <summary>What kind of value a key has; <see cref="JsonValueKind.Undefined"/> when it is not there.</summary>
    public JsonValueKind KindOf(string key) => _values.TryGetValue(key, out var element) ? element.ValueKind : JsonValueKind.Undefined;

    /// <summary>An object below this one.</summary>
    public Section? Object(string key, bool required = true)
    {
        if (Take(key, JsonValueKind.Object, required ? "an object { … }" : null, "an object { … }") is not { } element)
        {
            return null;
        }

        var child = new Section(element, At(key), Faults, _written, _si);
        Resolved[key] = child.Resolved;
        return child;
    }

    /// <summary>The objects of an array below this one; null when the key is not there or not an array.</summary>
    public IReadOnlyList<Section>? Objects(string key, bool required, int from, int to)
    {
        var what = $"an array of {from} to {to} objects";
        if (Take(key, JsonValueKind.Array, required ? what : null, what) is not { } element)
        {
            return null;
        }

        var resolved = new JsonArray();
        Resolved[key] = resolved;
        var items = new List<Section>();
        var index = 0;
        foreach (var item in element.EnumerateArray())
        {
            var path = $"{At(key)}[{index++}]";
            if (item.ValueKind != JsonValueKind.Object)
            {
                Faults.Add(path, $"is {Kind(item)}; an object was expected");
                continue;
            }

            var child = new Section(item, path, Faults, _written, _si);
            resolved.Add((JsonNode)child.Resolved);
            items.Add(child);
        }

        if (index < from || index > to)
        {
            Faults.Add(At(key), $"has {index} items; {what} was expected");
            return null;
        }

        return items;
    }

    /// <summary>To be called last: every key that nobody asked for is a fault.</summary>
    /// <param name="alsoKnown">Keys that are accepted and left alone.</param>
    public void Finish(params ReadOnlySpan<string> alsoKnown)
    {
        foreach (var key in _values.Keys)
        {
            if (!_asked.Contains(key) && !alsoKnown.Contains(key))
            {
                Faults.Add(At(key), $"is not a key that belongs here; known are {string.Join(", ", _asked.Order(StringComparer.Ordinal))}");
            }
        }
    }

    /// <summary>The path of a key of this object.</summary>
    public string At(string key) => Path.Length == 0 ? key : $"{Path}.{key}";

    /// <summary>What is sound JSON to the parser and yet can't be read as text; null when all can.</summary>
    private static string? NoText(ReadOnlySpan<byte> utf8)
    {
        if (!Utf8.IsValid(utf8))
        {
            return "is no UTF-8 text; save it as UTF-8";
        }

        var reader = new Utf8JsonReader(utf8, new JsonReaderOptions { CommentHandling = JsonCommentHandling.Skip, MaxDepth = Deepest });
        while (reader.Read())
        {
            if (!reader.ValueIsEscaped)
            {
                continue;
            }

            try
            {
                reader.GetString();
            }
            catch (InvalidOperationException)
            {
                return $"has half a surrogate pair at line {utf8[..(int)reader.TokenStartIndex].Count((byte)'\n') + 1}; write the character itself";
            }
        }

        return null;
    }

    private static string Kind(JsonElement element) => element.ValueKind switch
    {
        JsonValueKind.Object => "an object",
        JsonValueKind.Array => "an array",
        JsonValueKind.String => $"the text {Shown(element.GetString()!)}",
        JsonValueKind.Number => $"the number {Shown(element.GetRawText())}",
        _ => element.GetRawText(),
    };

    private static string Shown(string text) => text.Length > 40 ? $"\"{text[..40]}…\"" : $"\"{text}\"";

    private JsonElement? Take(string key, JsonValueKind kind, string? missing, string expected)
    {
        _asked.Add(key);
        if (!_values.TryGetValue(key, out var element))
        {
            if (missing is not null)
            {
                Faults.Add(At(key), $"is missing; {missing} was expected");
            }

            return null;
        }

        if (element.ValueKind == kind || (kind == JsonValueKind.True && element.ValueKind == JsonValueKind.False))
        {
            return element;
        }

        Faults.Add(At(key), $"is {Kind(element)}; {expected} was expected");
        return null;
    }
}

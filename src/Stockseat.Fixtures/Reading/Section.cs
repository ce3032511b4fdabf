using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Unicode;

namespace Stockseat.Fixtures.Reading;

/// <summary>
/// One object of a JSON file, read strictly: a key that nobody asked for, a key that appears twice and a value of the wrong kind are faults. Reading goes on
/// after a fault, so that all faults are reported at once. The values that were read are kept in <see cref="Resolved"/>.
/// </summary>
public sealed partial class Section
{
    private const int Deepest = 16;

    private readonly Dictionary<string, JsonElement> _values = new(StringComparer.Ordinal);
    private readonly HashSet<string> _asked = new(StringComparer.Ordinal);
    private readonly Dictionary<string, string> _written;
    private readonly Dictionary<string, string> _units;
    private readonly bool _si;

    private Section(JsonElement element, string path, Faults faults, Dictionary<string, string> written, Dictionary<string, string> units, bool si)
    {
        Path = path;
        Faults = faults;
        (_written, _units) = (written, units);
        _si = si;
        foreach (var property in element.EnumerateObject())
        {
            if (!_values.TryAdd(property.Name, property.Value))
            {
                faults.Add(At(property.Name), "the key appears twice; keep one");
            }
        }
    }

    /// <summary>Where this object is in the file.</summary>
    public string Path { get; }

    /// <summary>Faults are added here.</summary>
    public Faults Faults { get; }

    /// <summary>The values that were read, in SI units; only the keys that the file has.</summary>
    public JsonObject Resolved { get; } = [];

    /// <summary>The quantities of the whole file that were read so far, by path, each as the file wrote it; empty when the file has bare SI numbers.</summary>
    public IReadOnlyDictionary<string, string> Written => _written;

    /// <summary>The SI unit of each quantity of the whole file that was read so far, by path.</summary>
    public IReadOnlyDictionary<string, string> Units => _units;

    /// <summary>The keys in the file, in its order.</summary>
    public IEnumerable<string> Keys => _values.Keys;

    /// <summary>Parses a whole file: JSON with comments, one object.</summary>
    /// <param name="utf8">The file's bytes.</param>
    /// <param name="faults">Faults are added here.</param>
    /// <param name="si">Whether quantities are bare SI numbers, as in the ledger, rather than texts with units.</param>
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
                return new Section(root, "", faults, new(StringComparer.Ordinal), new(StringComparer.Ordinal), si);
            }

            faults.Add("", $"holds {Kind(root)}; an object {{ … }} was expected");
        }
        catch (JsonException e)
        {
            faults.Add("", $"is not JSON at line {e.LineNumber + 1}, byte {e.BytePositionInLine + 1}: it is cut off or mistyped there");
        }

        return null;
    }

    /// <summary>Whether the file has the key. Asking makes it a known key.</summary>
    public bool Has(string key)
    {
        _asked.Add(key);
        return _values.ContainsKey(key);
    }

    /// <summary>The kind of a key's value; <see cref="JsonValueKind.Undefined"/> when the file does not have the key.</summary>
    public JsonValueKind KindOf(string key) => _values.TryGetValue(key, out var element) ? element.ValueKind : JsonValueKind.Undefined;

    /// <summary>An object within this one.</summary>
    public Section? Object(string key, bool required = true)
    {
        if (Take(key, JsonValueKind.Object, required ? "an object { … }" : null, "an object { … }") is not { } element)
        {
            return null;
        }

        var child = new Section(element, At(key), Faults, _written, _units, _si);
        Resolved[key] = child.Resolved;
        return child;
    }

    /// <summary>The objects of an array within this one; null when the key is missing or its value is not an array.</summary>
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

            var child = new Section(item, path, Faults, _written, _units, _si);
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

    /// <summary>Has to be called last: every key that nobody asked for is a fault.</summary>
    /// <param name="alsoKnown">Keys that are accepted but not read.</param>
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

    /// <summary>What the parser accepts as JSON but what can't be read as text; null when everything can.</summary>
    private static string? NoText(ReadOnlySpan<byte> utf8)
    {
        if (!Utf8.IsValid(utf8))
        {
            return "is not UTF-8 text; save it as UTF-8";
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

using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace Stockseat.Fixtures.Tests.Support;

/// <summary>One place in a JSON tree: where it is, as a fault names it, and how to change it.</summary>
internal sealed record Place(string Path, JsonNode? Value, JsonNode Parent, string? Key, int Index)
{
    /// <summary>Puts another value there.</summary>
    public void Set(JsonNode? value)
    {
        if (Key is not null)
        {
            Parent[Key] = value;
        }
        else
        {
            Parent[Index] = value;
        }
    }
}

/// <summary>Walks revision files as trees.</summary>
internal static class Tree
{
    private static readonly JsonDocumentOptions Options = new() { CommentHandling = JsonCommentHandling.Skip };

    public static JsonObject Parse(string text) => JsonNode.Parse(text, null, Options)!.AsObject();

    /// <summary>Every place below the root except $schema; always in the same order for the same file.</summary>
    public static List<Place> Places(JsonNode root)
    {
        var places = new List<Place>();
        Walk(root, "", places);
        return places;
    }

    /// <summary>The places without places below them.</summary>
    public static List<Place> Leaves(JsonNode root) => [.. Places(root).Where(p => p.Value is JsonValue)];

    /// <summary>The tree as text, in which the first member of the object at a path appears twice.</summary>
    public static string WithFirstMemberTwice(JsonNode root, string path)
    {
        var text = new StringBuilder();
        Write(text, root, "", path);
        return text.ToString();
    }

    private static string Below(string path, string key) => path.Length == 0 ? key : $"{path}.{key}";

    private static void Walk(JsonNode node, string path, List<Place> places)
    {
        IEnumerable<Place> below = node switch
        {
            JsonObject o => o.Where(m => m.Key != "$schema").Select(m => new Place(Below(path, m.Key), m.Value, node, m.Key, -1)),
            JsonArray a => a.Select((item, i) => new Place($"{path}[{i}]", item, node, null, i)),
            _ => [],
        };
        foreach (var place in below.ToArray())
        {
            places.Add(place);
            Walk(place.Value!, place.Path, places);
        }
    }

    private static void Write(StringBuilder text, JsonNode? node, string path, string twice)
    {
        switch (node)
        {
            case JsonObject o:
                var members = o.Select(m => (m.Key, m.Value)).ToList();
                if (path == twice)
                {
                    members.Add(members[0]);
                }

                var first = true;
                foreach (var (key, value) in members)
                {
                    text.Append(first ? '{' : ',').Append(JsonValue.Create(key).ToJsonString()).Append(':');
                    Write(text, value, Below(path, key), twice);
                    first = false;
                }

                text.Append(first ? "{}" : "}");
                break;
            case JsonArray a:
                text.Append('[');
                for (var i = 0; i < a.Count; i++)
                {
                    text.Append(i == 0 ? "" : ",");
                    Write(text, a[i], $"{path}[{i}]", twice);
                }

                text.Append(']');
                break;
            default:
                text.Append(node!.ToJsonString());
                break;
        }
    }
}

using System.Text;
using System.Text.Json;

namespace Stockseat.Fixtures.Calibration;

/// <summary>Replaces values in a JSON text and leaves everything else as it is, comments and white space included.</summary>
public static class JsonSplice
{
    private static readonly JsonReaderOptions WithComments = new() { CommentHandling = JsonCommentHandling.Skip };

    /// <summary>The text with the values replaced.</summary>
    /// <param name="utf8">Valid JSON, with or without comments; an object.</param>
    /// <param name="values">The new JSON of each value, by the path of the value, such as <c>taught.position</c>.</param>
    /// <exception cref="KeyNotFoundException">The text has no such path.</exception>
    public static byte[] Replace(ReadOnlySpan<byte> utf8, IReadOnlyDictionary<string, string> values)
    {
        var result = new MemoryStream();
        var done = 0;
        foreach (var (start, end, path) in Places(utf8, values.Keys))
        {
            result.Write(utf8[done..start]);
            result.Write(Encoding.UTF8.GetBytes(values[path]));
            done = end;
        }

        result.Write(utf8[done..]);
        return result.ToArray();
    }

    /// <summary>The text of one value.</summary>
    /// <exception cref="KeyNotFoundException">The text has no such path.</exception>
    public static string Get(ReadOnlySpan<byte> utf8, string path)
    {
        var (start, end, _) = Places(utf8, [path])[0];
        return Encoding.UTF8.GetString(utf8[start..end]);
    }

    /// <summary>Whether the text has a path.</summary>
    public static bool Has(ReadOnlySpan<byte> utf8, string path) => Find(utf8, [path]).Count > 0;

    private static List<(int Start, int End, string Path)> Places(ReadOnlySpan<byte> utf8, IEnumerable<string> paths)
    {
        var found = Find(utf8, paths);
        return paths.FirstOrDefault(p => found.All(f => f.Path != p)) is { } missing
            ? throw new KeyNotFoundException($"there is no {missing} to replace")
            : found;
    }

    private static List<(int Start, int End, string Path)> Find(ReadOnlySpan<byte> utf8, IEnumerable<string> paths)
    {
        var wanted = paths.ToHashSet(StringComparer.Ordinal);
        var found = new List<(int, int, string)>();
        var names = new Stack<string>();
        var reader = new Utf8JsonReader(utf8, WithComments);
        while (reader.Read())
        {
            switch (reader.TokenType)
            {
                case JsonTokenType.PropertyName:
                    names.Push(names.TryPeek(out var parent) ? $"{parent}.{reader.GetString()}" : reader.GetString()!);
                    reader.Read();
                    if (wanted.Contains(names.Peek()))
                    {
                        var start = (int)reader.TokenStartIndex;
                        reader.Skip();
                        found.Add((start, (int)reader.BytesConsumed, names.Pop()));
                    }
                    else if (reader.TokenType == JsonTokenType.StartArray)
                    {
                        reader.Skip();
                        names.Pop();
                    }
                    else if (reader.TokenType != JsonTokenType.StartObject)
                    {
                        names.Pop();
                    }

                    break;
                case JsonTokenType.EndObject:
                    names.TryPop(out _);
                    break;
            }
        }

        return found;
    }
}

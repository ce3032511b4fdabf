using System.Text;
using System.Text.Json;

namespace Stockseat.Fixtures.Calibration;

/// <summary>Exchanges values in a JSON text and leaves everything else as it is, comments and white space too.</summary>
public static class JsonSplice
{
    private static readonly JsonReaderOptions WithComments = new() { CommentHandling = JsonCommentHandling.Skip };

    /// <summary>The text with the values exchanged.</summary>
    /// <param name="utf8">Sound JSON with comments, an object.</param>
    /// <param name="values">By the path in objects, such as <c>taught.position</c>: the JSON that stands there from now on.</param>
    /// <exception cref="KeyNotFoundException">A path is not there.</exception>
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
    /// <exception cref="KeyNotFoundException">The path is not there.</exception>
    public static string Get(ReadOnlySpan<byte> utf8, string path)
    {
        var (start, end, _) = Places(utf8, [path])[0];
        return Encoding.UTF8.GetString(utf8[start..end]);
    }

    /// <summary>Whether a path is there.</summary>
    public static bool Has(ReadOnlySpan<byte> utf8, string path) => Find(utf8, [path]).Count > 0;

    private static List<(int Start, int End, string Path)> Places(ReadOnlySpan<byte> utf8, IEnumerable<string> paths)
    {
        var found = Find(utf8, paths);
        return paths.FirstOrDefault(p => found.All(f => f.Path != p)) is { } missing
            ? throw new KeyNotFoundException($"there is no {missing} to exchange")
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

using System.Text;
using System.Text.Json;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Verbs;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Verifying;

/// <summary>
/// Reads a body together with its columns: in one pass over its bytes when everything is right, and once more, to put it into words, when something is not.
/// </summary>
internal static class BodyReading
{
    /// <summary>The field of the version, which is not a column.</summary>
    public const int Version = 7;

    private static readonly string[] Copied = ["serial", "at", "kind", "fixture", "revision", "client", "tag"];
    private static readonly JsonDocumentOptions Strict = new() { AllowDuplicateProperties = false };

    /// <summary>Whether the body is JSON of the present version, and every column a copy of its value.</summary>
    /// <param name="row">The row.</param>
    /// <param name="isSeal">Whether the body is that of a seal.</param>
    /// <exception cref="JsonException">The body is too long to be read.</exception>
    public static bool IsPlain(in EntryBytes row, out bool isSeal)
    {
        if (TooLong(row) is { } tooLong)
        {
            throw new JsonException(tooLong);
        }

        isSeal = row.Kind.SequenceEqual("seal"u8);
        if (PlainBody.Holds(row))
        {
            return true;
        }

        isSeal = false;
        try
        {
            var reader = new Utf8JsonReader(row.Body);
            if (!reader.Read() || reader.TokenType != JsonTokenType.StartObject)
            {
                return false;
            }

            var seen = 0;
            while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
            {
                if (reader.ValueIsEscaped)
                {
                    return false; // The writer never writes such a body: read it the slow way.
                }

                var name = reader.ValueSpan;
                var field = Field(name);
                reader.Read();
                if (field < 0)
                {
                    reader.Skip();
                    continue;
                }

                if ((seen & (1 << field)) != 0 || !Copies(ref reader, row, field))
                {
                    return false;
                }

                seen |= 1 << field;
            }

            isSeal = row.Kind.SequenceEqual("seal"u8);
            return !reader.Read() && seen == Expected(row);
        }
        catch (JsonException)
        {
            return false;
        }
    }

    /// <summary>The fields that the body of a row must have, one bit each.</summary>
    public static int Expected(in EntryBytes row) =>
        0b1000_0111 | (row.HasFixture ? 8 : 0) | (row.HasRevision ? 16 : 0) | (row.HasClient ? 32 : 0) | (row.HasTag ? 64 : 0);

    /// <summary>The number of a member that is a column or the version; below 0 for any other.</summary>
    public static int Field(ReadOnlySpan<byte> name) => name.Length switch
    {
        1 when name[0] == 'v' => Version,
        2 when name.SequenceEqual("at"u8) => 1,
        3 when name.SequenceEqual("tag"u8) => 6,
        4 when name.SequenceEqual("kind"u8) => 2,
        6 when name.SequenceEqual("serial"u8) => 0,
        6 when name.SequenceEqual("client"u8) => 5,
        7 when name.SequenceEqual("fixture"u8) => 3,
        8 when name.SequenceEqual("revision"u8) => 4,
        _ => -1,
    };

    /// <summary>Why the body of a row is not read, in words; null when it may be read.</summary>
    public static string? TooLong(in EntryBytes row) =>
        row.Body.Length > BodyJson.LongestRolledOver
            || (row.Body.Length > BodyJson.Longest && !row.Kind.SequenceEqual("rolled-over"u8) && !row.Kind.SequenceEqual("snapshot"u8))
            ? BodyJson.TooLong(Encoding.UTF8.GetString(row.Kind), row.Body.Length) : null;

    /// <summary>The serial in a body; null when it can't be read.</summary>
    public static long? SerialOf(in EntryBytes row)
    {
        try
        {
            if (TooLong(row) is not null)
            {
                return null;
            }

            var reader = new Utf8JsonReader(row.Body);
            using var json = JsonDocument.ParseValue(ref reader);
            return json.RootElement.ValueKind == JsonValueKind.Object && json.RootElement.TryGetProperty("serial", out var s)
                && s.ValueKind == JsonValueKind.Number && s.TryGetInt64(out var serial) ? serial : null;
        }
        catch (JsonException)
        {
            return null;
        }
    }

    /// <summary>The body, read in full, with its version.</summary>
    /// <exception cref="JsonException">The body can't be read; or one of the exceptions that <see cref="IsUnreadable"/> knows.</exception>
    public static JsonDocument Read(in EntryBytes row, out int version)
    {
        var json = JsonDocument.Parse(row.Body.ToArray(), Strict);
        version = json.RootElement.GetProperty("v").GetInt32();
        return json;
    }

    /// <summary>Whether an exception means that a body can't be read.</summary>
    public static bool IsUnreadable(Exception e) => e is JsonException or KeyNotFoundException or InvalidOperationException or FormatException;

    /// <summary>Which columns differ from the body, in words.</summary>
    public static List<string> Differences(in EntryBytes row, JsonElement body)
    {
        var differs = new List<string>();
        foreach (var name in Copied)
        {
            var (value, column) = (body.TryGetProperty(name, out var v) ? v.ToString() : null, row.Text(name));
            if (value != column)
            {
                differs.Add($"{name} is '{column}' in the column and '{value}' in the body");
            }
        }

        return differs;
    }

    private static bool Copies(ref Utf8JsonReader reader, in EntryBytes row, int field) => field switch
    {
        Version => reader.TokenType == JsonTokenType.Number && reader.TryGetInt32(out var version) && EntryBody.Knows(version),
        0 => reader.TokenType == JsonTokenType.Number && reader.TryGetInt64(out var serial) && serial == row.Serial,
        4 => row.HasRevision && reader.TokenType == JsonTokenType.Number && reader.TryGetInt64(out var revision) && revision == row.Revision,
        _ => reader.TokenType == JsonTokenType.String && field switch
        {
            1 => reader.ValueTextEquals(row.At),
            2 => reader.ValueTextEquals(row.Kind),
            3 => row.HasFixture && reader.ValueTextEquals(row.Fixture),
            5 => row.HasClient && reader.ValueTextEquals(row.Client),
            _ => row.HasTag && reader.ValueTextEquals(row.Tag),
        },
    };
}

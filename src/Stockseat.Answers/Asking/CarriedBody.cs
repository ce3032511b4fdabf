using System.Text;
using System.Text.Json;
using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Asking;

/// <summary>The body of an older entry, inside an entry that carries it.</summary>
public static class CarriedBody
{
    /// <summary>Reads a carried body.</summary>
    /// <param name="body">The body.</param>
    /// <param name="table">The table that knows its kind.</param>
    /// <exception cref="JsonException">This version does not know such a body.</exception>
    public static EntryBody Read(JsonElement body, VerbTable table)
    {
        var kind = KindOf(body) ?? "none";
        if (kind is Kinds.RolledOver or Kinds.Snapshot)
        {
            throw new JsonException("a carried entry carries others itself");
        }

        if (SerialOf(body) < 1)
        {
            throw new JsonException($"a carried entry of kind {kind} has no serial of 1 or more");
        }

        return table.Read(kind, Encoding.UTF8.GetBytes(body.GetRawText()))
            ?? throw new JsonException($"a carried entry has the kind {kind}, which this version does not know");
    }

    /// <summary>The kind that it states; null: it states none.</summary>
    public static string? KindOf(JsonElement body) =>
        body.ValueKind == JsonValueKind.Object && body.TryGetProperty("kind", out var said) && said.ValueKind == JsonValueKind.String
            ? said.GetString() : null;

    /// <summary>The serial that it states; 0: it states none.</summary>
    public static long SerialOf(JsonElement body) =>
        body.ValueKind == JsonValueKind.Object && body.TryGetProperty("serial", out var said) && said.ValueKind == JsonValueKind.Number
            && said.TryGetInt64(out var serial) ? serial : 0;

    /// <summary>Why one of several bodies can't be read, in words; null when all can.</summary>
    public static string? Fault(IEnumerable<JsonElement> bodies, VerbTable table)
    {
        try
        {
            foreach (var body in bodies)
            {
                Read(body, table);
            }

            return null;
        }
        catch (JsonException e)
        {
            return $"an entry that it carries can't be read: {e.Message}";
        }
    }
}

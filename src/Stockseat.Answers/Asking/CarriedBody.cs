using System.Text;
using System.Text.Json;
using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Asking;

/// <summary>The body of an older entry inside of one that carries it.</summary>
public static class CarriedBody
{
    /// <summary>Reads it.</summary>
    /// <param name="body">The body.</param>
    /// <param name="table">Knows its kind.</param>
    /// <exception cref="JsonException">It is none that this version knows.</exception>
    public static EntryBody Read(JsonElement body, VerbTable table)
    {
        var kind = KindOf(body) ?? "none";
        if (kind is Kinds.RolledOver or Kinds.Snapshot)
        {
            throw new JsonException("an entry is carried that carries others");
        }

        if (SerialOf(body) < 1)
        {
            throw new JsonException($"an entry of kind {kind} is carried without a serial from 1");
        }

        return table.Read(kind, Encoding.UTF8.GetBytes(body.GetRawText()))
            ?? throw new JsonException($"an entry of kind {kind} is carried, which is not known here");
    }

    /// <summary>The kind that it says; null: it says none.</summary>
    public static string? KindOf(JsonElement body) =>
        body.ValueKind == JsonValueKind.Object && body.TryGetProperty("kind", out var said) && said.ValueKind == JsonValueKind.String
            ? said.GetString() : null;

    /// <summary>The serial that it says; 0: it says none.</summary>
    public static long SerialOf(JsonElement body) =>
        body.ValueKind == JsonValueKind.Object && body.TryGetProperty("serial", out var said) && said.ValueKind == JsonValueKind.Number
            && said.TryGetInt64(out var serial) ? serial : 0;

    /// <summary>Why one of several can't be read, in words; null when all can.</summary>
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
            return $"what it carries can't be read: {e.Message}";
        }
    }
}

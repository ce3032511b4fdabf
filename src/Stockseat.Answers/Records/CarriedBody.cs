using System.Text;
using System.Text.Json;

namespace Stockseat.Answers.Records;

/// <summary>The body of an older entry inside of one that carries it.</summary>
public static class CarriedBody
{
    /// <summary>Reads it.</summary>
    /// <exception cref="JsonException">It is none that this version knows.</exception>
    public static EntryBody Read(JsonElement body)
    {
        var kind = KindOf(body) ?? "none";
        if (kind is Kinds.RolledOver or Kinds.Snapshot)
        {
            throw new JsonException("an entry is carried that carries others");
        }

        return BodyJson.Read(kind, Encoding.UTF8.GetBytes(body.GetRawText()))
            ?? throw new JsonException($"an entry of kind {kind} is carried, which is not known here");
    }

    /// <summary>The kind that it says; null: it says none.</summary>
    public static string? KindOf(JsonElement body) =>
        body.ValueKind == JsonValueKind.Object && body.TryGetProperty("kind", out var said) && said.ValueKind == JsonValueKind.String ? said.GetString() : null;
}

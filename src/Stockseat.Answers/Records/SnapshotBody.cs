using System.Text.Json;
using System.Text.Json.Serialization;

namespace Stockseat.Answers.Records;

/// <summary>
/// What holds after the entry before it, so that whoever wants to know need not read the entries before. It is evidence and no authority: it follows from
/// those entries, byte for byte.
/// </summary>
public sealed record SnapshotBody : EntryBody
{
    [JsonPropertyOrder(KindOrder)]
    public override string Kind => Kinds.Snapshot;

    /// <summary>
    /// The bodies of the older entries that still hold, in their order, as they stand in their rows or in the entry that this ledger begins with.
    /// </summary>
    public required IReadOnlyList<JsonElement> Carried { get; init; }

    /// <summary>The bodies that it carries, read.</summary>
    /// <exception cref="JsonException">One is none that this version knows.</exception>
    public IEnumerable<EntryBody> ReadCarried() => Carried.Select(CarriedBody.Read);
}

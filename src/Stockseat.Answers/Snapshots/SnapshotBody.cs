using System.Text.Json;
using System.Text.Json.Serialization;
using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Snapshots;

/// <summary>
/// Everything that counts after the entry before it, so that a reader need not read the entries before. It is evidence, not an authority: it follows from those
/// entries, byte for byte.
/// </summary>
public sealed record SnapshotBody : EntryBody
{
    [JsonPropertyOrder(KindOrder)]
    public override string Kind => Kinds.Snapshot;

    /// <summary>
    /// The bodies of the older entries that still count, in their order, exactly as they are in their rows or in the entry with which this ledger begins.
    /// </summary>
    public required IReadOnlyList<JsonElement> Carried { get; init; }
}

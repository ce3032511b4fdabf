using System.Text.Json;
using System.Text.Json.Serialization;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Roll;

/// <summary>
/// A ledger rolled over. As the last entry of the old one it names the new one; as the first of the new one it names the old one and carries what holds.
/// Serials go on.
/// </summary>
public sealed record RolledOverBody : EntryBody
{
    [JsonPropertyOrder(KindOrder)]
    public override string Kind => Kinds.RolledOver;

    /// <summary>Of an end: the id of the ledger that goes on.</summary>
    public string? Next { get; init; }

    /// <summary>Of an end: who had it roll over.</summary>
    public string? By { get; init; }

    /// <summary>Of an end: why.</summary>
    public string? Why { get; init; }

    /// <summary>Of a beginning: this ledger's id.</summary>
    public string? Ledger { get; init; }

    /// <summary>Of a beginning: the ledger that it goes on after.</summary>
    public FollowedLedger? Follows { get; init; }

    /// <summary>Of a beginning: the bodies of the older entries that still hold, in their order, with the serials and instants that they have.</summary>
    public IReadOnlyList<JsonElement>? Carried { get; init; }

    /// <summary>Whether the ledger ends here.</summary>
    [JsonIgnore]
    public bool IsEnd => Follows is null;

    /// <summary>The bodies that it carries, read.</summary>
    /// <param name="table">Reads them.</param>
    /// <exception cref="JsonException">One is none that this version knows.</exception>
    public IEnumerable<EntryBody> ReadCarried(VerbTable table) => (Carried ?? []).Select(body => CarriedBody.Read(body, table));
}

using System.Text.Json;
using System.Text.Json.Serialization;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Roll;

/// <summary>
/// A ledger rolled over. As the last entry of the old ledger it names the new one; as the first of the new ledger it names the old one, and carries everything
/// that still counts. Serials go on.
/// </summary>
public sealed record RolledOverBody : EntryBody
{
    [JsonPropertyOrder(KindOrder)]
    public override string Kind => Kinds.RolledOver;

    /// <summary>In the old ledger: the id of the new one.</summary>
    public string? Next { get; init; }

    /// <summary>In the old ledger: who made it roll over.</summary>
    public string? By { get; init; }

    /// <summary>In the old ledger: why.</summary>
    public string? Why { get; init; }

    /// <summary>In the new ledger: its id.</summary>
    public string? Ledger { get; init; }

    /// <summary>In the new ledger: the ledger that it continues.</summary>
    public FollowedLedger? Follows { get; init; }

    /// <summary>In the new ledger: the bodies of the older entries that still count, in their order, with their own serials and instants.</summary>
    public IReadOnlyList<JsonElement>? Carried { get; init; }

    /// <summary>Whether this entry ends a ledger.</summary>
    [JsonIgnore]
    public bool IsEnd => Follows is null;

    /// <summary>The bodies that it carries, read.</summary>
    /// <param name="table">Reads them.</param>
    /// <exception cref="JsonException">This version does not know one of them.</exception>
    public IEnumerable<EntryBody> ReadCarried(VerbTable table) => (Carried ?? []).Select(body => CarriedBody.Read(body, table));
}

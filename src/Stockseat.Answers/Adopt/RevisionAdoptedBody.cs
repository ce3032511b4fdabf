using System.Text.Json;
using System.Text.Json.Serialization;
using Stockseat.Answers.Entries;
using Stockseat.Answers.State;

namespace Stockseat.Answers.Adopt;

/// <summary>A revision came into force. The entry holds its whole content, so a replay needs nothing but the ledger.</summary>
public sealed record RevisionAdoptedBody : EntryBody, IAdoption
{
    [JsonPropertyOrder(KindOrder)]
    public override string Kind => Kinds.RevisionAdopted;

    public required string By { get; init; }

    public required string Why { get; init; }

    public bool Automatic { get; init; }

    /// <summary>The resolved values in SI units; the digest is that of their canonical form.</summary>
    public required JsonElement Content { get; init; }
}

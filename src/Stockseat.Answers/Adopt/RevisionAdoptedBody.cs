using System.Text.Json;
using System.Text.Json.Serialization;
using Stockseat.Answers.Entries;
using Stockseat.Answers.State;

namespace Stockseat.Answers.Adopt;

/// <summary>A revision came in force, with its whole content: a replay needs nothing but the ledger.</summary>
public sealed record RevisionAdoptedBody : EntryBody, IAdoption
{
    [JsonPropertyOrder(KindOrder)]
    public override string Kind => Kinds.RevisionAdopted;

    public required string By { get; init; }

    public required string Why { get; init; }

    public bool Automatic { get; init; }

    /// <summary>The resolved values in SI units; the digest is over their canonical form.</summary>
    public required JsonElement Content { get; init; }
}

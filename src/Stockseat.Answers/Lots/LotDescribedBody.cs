using System.Text.Json.Serialization;
using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Lots;

/// <summary>Somebody described a lot; it replaces the earlier description of the same name.</summary>
public sealed record LotDescribedBody : EntryBody
{
    [JsonPropertyOrder(KindOrder)]
    public override string Kind => Kinds.LotDescribed;

    public required string Lot { get; init; }

    public required LotTerms LotTerms { get; init; }

    /// <summary>The entry of the description that this one replaces; null when it is the first of its lot, and in entries of version 1.</summary>
    public long? Replaces { get; init; }

    /// <summary>What the replaced description said.</summary>
    public LotTerms? Before { get; init; }
}

using System.Text.Json.Serialization;
using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Events;

/// <summary>The service began. The first entry of a ledger carries the ledger's id here.</summary>
public sealed record ServiceStartedBody : EntryBody
{
    [JsonPropertyOrder(KindOrder)]
    public override string Kind => Kinds.ServiceStarted;

    public string? Ledger { get; init; }

    public required string Program { get; init; }

    public required string Host { get; init; }

    public required int Process { get; init; }
}

using System.Text.Json.Serialization;
using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Events;

/// <summary>The service before this one ended without a clean stop.</summary>
public sealed record UncleanStopBody : EntryBody
{
    [JsonPropertyOrder(KindOrder)]
    public override string Kind => Kinds.UncleanStop;

    /// <summary>The last entry that it wrote.</summary>
    public required long Last { get; init; }
}

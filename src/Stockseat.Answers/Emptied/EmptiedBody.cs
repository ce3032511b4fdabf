using System.Text.Json.Serialization;
using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Emptied;

/// <summary>The nests were cleared or refilled: the measurement is void.</summary>
public sealed record EmptiedBody : EntryBody
{
    [JsonPropertyOrder(KindOrder)]
    public override string Kind => Kinds.Emptied;

    /// <summary>Why the sender was refused at first, when the entry could not be written then; absent when the sender was not refused.</summary>
    public string? Undecided { get; init; }
}

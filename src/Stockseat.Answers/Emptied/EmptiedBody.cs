using System.Text.Json.Serialization;
using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Emptied;

/// <summary>The nests were cleared or refilled: the measurement is void.</summary>
public sealed record EmptiedBody : EntryBody
{
    [JsonPropertyOrder(KindOrder)]
    public override string Kind => Kinds.Emptied;

    /// <summary>The reason for which its sender was refused at first, when it could not be written; absent when it was not.</summary>
    public string? Undecided { get; init; }
}

using System.Text.Json.Serialization;
using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Loading;

/// <summary>The word that the move of an answer was not carried out.</summary>
public sealed record DroppedBody : EntryBody
{
    [JsonPropertyOrder(KindOrder)]
    public override string Kind => Kinds.Dropped;

    /// <summary>The serial of the answer.</summary>
    public required long Answer { get; init; }

    /// <summary>The load that it belongs to.</summary>
    public required long Load { get; init; }

    public required string Purpose { get; init; }

    /// <summary>The nest: column, row.</summary>
    public required int[] Nest { get; init; }

    /// <summary>True when it was dropped before and is said again: that changes nothing. Absent otherwise.</summary>
    public bool? Again { get; init; }

    /// <summary>Who says so; absent when the controller does.</summary>
    public string? By { get; init; }
}

using System.Text.Json.Serialization;
using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Events;

/// <summary>The file of a revision was found to be faulty or changed.</summary>
public sealed record RevisionRejectedBody : EntryBody
{
    [JsonPropertyOrder(KindOrder)]
    public override string Kind => Kinds.RevisionRejected;

    /// <summary>SHA-256 of the file.</summary>
    public required string File { get; init; }

    public required IReadOnlyList<string> Faults { get; init; }
}

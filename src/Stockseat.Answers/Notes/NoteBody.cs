using System.Text.Json.Serialization;
using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Notes;

/// <summary>What somebody noted in their own words. It changes nothing.</summary>
public sealed record NoteBody : EntryBody
{
    [JsonPropertyOrder(KindOrder)]
    public override string Kind => Kinds.Note;

    public required string By { get; init; }

    public required string Text { get; init; }

    /// <summary>The entry that it is about; absent when it is about an instant.</summary>
    public long? Entry { get; init; }

    /// <summary>The instant that it is about; absent when it is about an entry, or about the moment in which it was written.</summary>
    public string? Instant { get; init; }
}

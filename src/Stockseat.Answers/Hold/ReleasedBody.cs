using System.Text.Json.Serialization;
using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Hold;

/// <summary>A hold ended.</summary>
public sealed record ReleasedBody : EntryBody
{
    [JsonPropertyOrder(KindOrder)]
    public override string Kind => Kinds.Released;

    public required string By { get; init; }

    public required string Why { get; init; }

    /// <summary>The name whose hold ended.</summary>
    public required string Of { get; init; }

    /// <summary>How many holds of the fixture are left.</summary>
    public required int Left { get; init; }
}

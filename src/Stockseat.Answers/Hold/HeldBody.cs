using System.Text.Json.Serialization;
using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Hold;

/// <summary>Somebody is at the fixture: no ask is answered until they release it.</summary>
public sealed record HeldBody : EntryBody
{
    [JsonPropertyOrder(KindOrder)]
    public override string Kind => Kinds.Held;

    public required string By { get; init; }

    public required string Why { get; init; }
}

using System.Text.Json.Serialization;
using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Events;

/// <summary>The clock was set: the instants of this entry and those after it don't go with those before it.</summary>
public sealed record ClockStepBody : EntryBody
{
    [JsonPropertyOrder(KindOrder)]
    public override string Kind => Kinds.ClockStep;

    /// <summary>How far it moved, in seconds: below 0 back, above 0 forward.</summary>
    public required double Seconds { get; init; }

    /// <summary>The instant that was expected; at a start the last entry's.</summary>
    public required string Before { get; init; }

    /// <summary>Whether it was found by the last entry's instant, since no clock ran on: then it moved back by that much at least.</summary>
    public bool AtStart { get; init; }

    /// <summary>Of a step forward the newest step back before it; absent when there was none. So a start needs the newest of all steps only.</summary>
    public long? LastBack { get; init; }
}

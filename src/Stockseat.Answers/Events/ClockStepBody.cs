using System.Text.Json.Serialization;
using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Events;

/// <summary>The clock was set: the instants of this entry and of later ones are not comparable with those of earlier ones.</summary>
public sealed record ClockStepBody : EntryBody
{
    [JsonPropertyOrder(KindOrder)]
    public override string Kind => Kinds.ClockStep;

    /// <summary>How far the clock moved, in seconds: below 0 back, above 0 forward.</summary>
    public required double Seconds { get; init; }

    /// <summary>The instant that was expected; at a start that of the last entry.</summary>
    public required string Before { get; init; }

    /// <summary>
    /// Whether the step was found by comparing with the instant of the last entry, because no clock had run on: then the clock moved back by at least that
    /// much.
    /// </summary>
    public bool AtStart { get; init; }

    /// <summary>
    /// In a step forward, the serial of the newest step back before it; absent when there was none. With it, a start needs only the newest of all steps.
    /// </summary>
    public long? LastBack { get; init; }
}

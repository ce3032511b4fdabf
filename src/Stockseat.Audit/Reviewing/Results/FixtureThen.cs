using Stockseat.Answers.Adopt;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Recheck;
using Stockseat.Answers.State;

namespace Stockseat.Audit.Reviewing.Results;

/// <summary>What was in force for a fixture at the instant, by the ledger.</summary>
public sealed record FixtureThen
{
    /// <summary>The fixture.</summary>
    public required string Fixture { get; init; }

    /// <summary>The adoption of the revision that was in force; null when none was.</summary>
    public RevisionAdoptedBody? Adopted { get; init; }

    /// <summary>The holds at that time.</summary>
    public IReadOnlyList<StandingHold> Holds { get; init; } = [];

    /// <summary>The measurement that was valid; null when there was none.</summary>
    public MeasurementBody? Measurement { get; init; }

    /// <summary>Why there was none.</summary>
    public string? NoMeasurement { get; init; }

    /// <summary>
    /// The last entry before the instant that says that its nests were emptied or refilled, in the window or before; null when none was found.
    /// </summary>
    public EmptiedBody? Emptied { get; init; }

    /// <summary>What stood in the nests, in words; null when nobody had said so.</summary>
    public string? Load { get; init; }

    /// <summary>The recheck that missed; null when there was none.</summary>
    public RecheckBody? Missed { get; init; }

    /// <summary>The rechecks that were lacking until the revision was proven; none when it was.</summary>
    public IReadOnlyList<Proof.Lack> Unproven { get; init; } = [];

    /// <summary>The last answer that was served for it before the instant, in the window or before; null when none was found.</summary>
    public AnswerBody? LastAnswer { get; init; }

    /// <summary>The entry that confirmed it; null when none was found.</summary>
    public long? LastConfirmedBy { get; init; }
}

using Stockseat.Answers.Adopt;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Recheck;
using Stockseat.Answers.State;

namespace Stockseat.Audit.Reviewing.Results;

/// <summary>How a fixture stood at the instant, by the ledger.</summary>
public sealed record FixtureThen
{
    /// <summary>The fixture.</summary>
    public required string Fixture { get; init; }

    /// <summary>The entry that brought the revision in force that was; null when none was.</summary>
    public RevisionAdoptedBody? Adopted { get; init; }

    /// <summary>The holds that stood.</summary>
    public IReadOnlyList<StandingHold> Holds { get; init; } = [];

    /// <summary>The measurement that stood; null when none did.</summary>
    public MeasurementBody? Measurement { get; init; }

    /// <summary>Why there was none.</summary>
    public string? NoMeasurement { get; init; }

    /// <summary>The last word before the instant that its nests were emptied or refilled, in the window or before; null when none was found.</summary>
    public EmptiedBody? Emptied { get; init; }

    /// <summary>The recheck of it that missed; null when none did.</summary>
    public RecheckBody? Missed { get; init; }

    /// <summary>The last answer that was served for it before the instant, in the window or before; null when none was found.</summary>
    public AnswerBody? LastAnswer { get; init; }

    /// <summary>The entry that confirmed it; null when none was found.</summary>
    public long? LastConfirmedBy { get; init; }
}

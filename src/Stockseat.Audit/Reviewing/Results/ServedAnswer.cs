using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Measured;

namespace Stockseat.Audit.Reviewing.Results;

/// <summary>An answer in the window, with what is behind it and what became of it.</summary>
public sealed record ServedAnswer
{
    /// <summary>The answer as it was served.</summary>
    public required AnswerBody Answer { get; init; }

    /// <summary>The measurement that its diameter comes from; null when the client stated it, or the entry can't be found.</summary>
    public MeasurementBody? Measurement { get; init; }

    /// <summary>The answer before it for the same fixture, purpose and nest; null when none was found.</summary>
    public AnswerBody? Before { get; init; }

    /// <summary>
    /// What the ledger says about the stock between <see cref="Before"/> and this answer: the fixture's emptied and measurement entries, also from before the
    /// window; null when they were not looked up, so that only those of the window are known.
    /// </summary>
    public IReadOnlyList<EntryBody>? Between { get; init; }

    /// <summary>How far the shift moved since the answer before, in base, in metres: bx, by, bz; null without one.</summary>
    public double[]? Change { get; init; }

    /// <summary>The length of <see cref="Change"/>, in metres.</summary>
    public double? ChangeMetres => Change is { } c ? Math.Sqrt(c.Sum(x => x * x)) : null;

    /// <summary>The entry that confirmed it; null when none did.</summary>
    public long? ConfirmedBy { get; init; }

    /// <summary>Refused confirmations of it, such as one whose read-back differs.</summary>
    public IReadOnlyList<RefusalBody> Misread { get; init; } = [];

    /// <summary>Whether its replay gave the same, so that it follows from its inputs; null when it could not be replayed.</summary>
    public bool? Follows { get; init; }
}

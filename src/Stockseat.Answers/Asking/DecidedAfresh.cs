using Stockseat.Answers.Entries;
using Stockseat.Answers.State;

namespace Stockseat.Answers.Asking;

/// <summary>What an ask that was decided before comes to now, to see whether its first outcome still holds.</summary>
/// <param name="Situation">What holds now.</param>
/// <param name="Body">The outcome, decided as a new ask.</param>
/// <param name="HeldSince">Whether whose hold a release ended held the fixture again after it.</param>
public sealed record DecidedAfresh(Situation Situation, EntryBody Body, Func<EntryBody, bool> HeldSince)
{
    /// <summary>The state of an entry's fixture; null when there is none.</summary>
    public FixtureState? Of(EntryBody entry) => entry.Fixture is { } name ? Situation.Find(name) : null;

    /// <summary>Which measurement stands that is newer than an entry, in words; null when none does.</summary>
    public string? MeasuredSince(EntryBody entry) =>
        Of(entry)?.Measurement is { } standing && standing.Serial > entry.Serial ? $"measurement {standing.Serial} stands since" : null;
}

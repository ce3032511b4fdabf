using Stockseat.Answers.Entries;
using Stockseat.Answers.State;

namespace Stockseat.Answers.Asking;

/// <summary>The outcome of an ask that was decided before, decided again now, to see whether the first outcome still holds.</summary>
/// <param name="Situation">What holds now.</param>
/// <param name="Body">The outcome now, decided as a new ask.</param>
/// <param name="HeldSince">Whether, after the release in an entry, the same name held the fixture again.</param>
public sealed record DecidedAfresh(Situation Situation, EntryBody Body, Func<EntryBody, bool> HeldSince)
{
    /// <summary>The state of an entry's fixture; null when there is none.</summary>
    public FixtureState? Of(EntryBody entry) => entry.Fixture is { } name ? Situation.Find(name) : null;

    /// <summary>The measurement that is newer than an entry, in words; null when there is none.</summary>
    public string? MeasuredSince(EntryBody entry) =>
        Of(entry)?.Measurement is { } standing && standing.Serial > entry.Serial ? $"measurement {standing.Serial} is newer" : null;
}

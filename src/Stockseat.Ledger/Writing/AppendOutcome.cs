using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;

namespace Stockseat.Ledger.Writing;

/// <summary>What became of an ask: its entry, which is on the disk, or a refusal that has none.</summary>
/// <param name="Entry">The entry; null when there is none.</param>
/// <param name="Refusal">Why there is none: too busy, ledger unavailable, shutting down, internal failure.</param>
public readonly record struct AppendOutcome(EntryBody? Entry, Refusal? Refusal)
{
    internal static AppendOutcome Of(Refusal refusal) => new(null, refusal);
}

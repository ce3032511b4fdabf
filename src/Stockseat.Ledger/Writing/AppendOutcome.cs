using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;

namespace Stockseat.Ledger.Writing;

/// <summary>The outcome of an ask: its entry, which is on the disk, or a refusal without an entry.</summary>
/// <param name="Entry">The entry; null when there is none.</param>
/// <param name="Refusal">Why there is no entry: too busy, ledger unavailable, shutting down, internal failure.</param>
public readonly record struct AppendOutcome(EntryBody? Entry, Refusal? Refusal)
{
    internal static AppendOutcome Of(Refusal refusal) => new(null, refusal);
}

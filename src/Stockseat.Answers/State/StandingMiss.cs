using Stockseat.Answers.Entries;
using Stockseat.Seating.Quantities;

namespace Stockseat.Answers.State;

/// <summary>A recheck of the revision in force that missed.</summary>
/// <param name="Entry">Its entry.</param>
/// <param name="Refuses">Whether asks are refused after it.</param>
/// <param name="Said">What it found, for the refusal's text, with its lengths in a unit.</param>
/// <param name="LengthMetres">How long the miss is.</param>
public sealed record StandingMiss(EntryBody Entry, bool Refuses, Func<LengthUnit, string> Said, double LengthMetres)
{
    /// <summary>The serial of its entry.</summary>
    public long Serial => Entry.Serial;
}

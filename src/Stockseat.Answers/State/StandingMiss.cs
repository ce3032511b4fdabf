using Stockseat.Answers.Entries;
using Stockseat.Seating.Quantities;

namespace Stockseat.Answers.State;

/// <summary>A recheck of the revision in force that missed.</summary>
/// <param name="Entry">The entry of the recheck.</param>
/// <param name="Refuses">Whether it refuses asks.</param>
/// <param name="Said">Its words for the text of a refusal, with the lengths in a unit.</param>
/// <param name="LengthMetres">The length of the miss, in metres.</param>
public sealed record StandingMiss(EntryBody Entry, bool Refuses, Func<LengthUnit, string> Said, double LengthMetres)
{
    /// <summary>The serial of its entry.</summary>
    public long Serial => Entry.Serial;
}

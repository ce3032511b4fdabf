using Stockseat.Answers.Entries;

namespace Stockseat.Answers.State;

/// <summary>A recheck of the revision in force that missed.</summary>
/// <param name="Entry">The entry of the recheck.</param>
/// <param name="Refuses">Whether it refuses asks.</param>
/// <param name="Said">Its words for the text of a refusal.</param>
/// <param name="LengthMetres">The length of the miss, in metres.</param>
public sealed record StandingMiss(EntryBody Entry, bool Refuses, string Said, double LengthMetres)
{
    /// <summary>The serial of its entry.</summary>
    public long Serial => Entry.Serial;
}

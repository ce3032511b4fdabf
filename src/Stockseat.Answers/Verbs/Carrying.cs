using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.State;

namespace Stockseat.Answers.Verbs;

/// <summary>
/// Chooses the entries that a new ledger, or a snapshot, has to carry, so that no older entry is needed to know the situation. For given entries it must always
/// choose the same.
/// </summary>
public static class Carrying
{
    /// <summary>The entries on which the situation rests, in their order. Applied to an empty situation, they make the same one.</summary>
    /// <param name="entries">Entries from which the situation was made, in any order.</param>
    /// <param name="situation">The situation.</param>
    public static IReadOnlyList<EntryBody> Of(IEnumerable<EntryBody> entries, Situation situation)
    {
        var ordered = entries.DistinctBy(e => e.Serial).OrderBy(e => e.Serial).ToList();
        var newest = new NewestEntries(ordered, RegisteredVerbs.Table);
        return [.. ordered.Where(e => Stands(e, situation, newest))];
    }

    private static bool Stands(EntryBody entry, Situation situation, NewestEntries newest)
    {
        var kind = RegisteredVerbs.Table.KindOf(entry);
        return kind.Stands(entry, situation, newest)
            || kind.NewestOf(entry, RegisteredVerbs.Table).Any(of => newest.Find(of, entry.Fixture)!.Serial == entry.Serial);
    }
}

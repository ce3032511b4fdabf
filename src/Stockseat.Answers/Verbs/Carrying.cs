using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.State;

namespace Stockseat.Answers.Verbs;

/// <summary>
/// Chooses the entries that a new ledger, or a snapshot, has to carry, so that nothing older is needed to know what holds. For given entries it must choose
/// the same for ever.
/// </summary>
public static class Carrying
{
    /// <summary>The entries that what holds comes from, in their order. Applied to nothing they make the same situation.</summary>
    /// <param name="entries">Entries that what holds was made of, in any order.</param>
    /// <param name="situation">What holds.</param>
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

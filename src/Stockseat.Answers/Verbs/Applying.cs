using System.Text;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Roll;
using Stockseat.Answers.State;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Answers.Verbs;

/// <summary>The situation after entries: a start, a recovery and a replay make it by applying entries in their order.</summary>
public static class Applying
{
    /// <summary>The situation after an entry.</summary>
    /// <exception cref="InvalidDataException">The entry adopts a revision whose values do not give its digest.</exception>
    public static Situation Apply(this Situation situation, EntryBody body) => situation.Apply(body, Read);

    /// <summary>The same for a replay, which does not end when a revision can't be read: then no revision is in force.</summary>
    /// <param name="situation">The situation before the entry.</param>
    /// <param name="body">The entry.</param>
    /// <param name="read">Reads the revision that an entry adopts; null when its values do not give its digest.</param>
    public static Situation Apply(this Situation situation, EntryBody body, Func<IAdoption, Revision?> read)
    {
        var after = RegisteredVerbs.Table.Apply(situation, body, read);
        return body is IAdoption or RolledOverBody ? after.Prepared() : after;
    }

    /// <summary>The situation after many entries: only revisions that are in force after the last of them are prepared for decisions.</summary>
    /// <param name="bodies">The entries, in their order.</param>
    /// <param name="read">Reads the revision that an entry adopts; null: it is read as in <see cref="Apply(Situation, EntryBody)"/>.</param>
    /// <exception cref="InvalidDataException">An entry adopts a revision whose values do not give its digest, and there is no such reader.</exception>
    public static Situation All(IEnumerable<EntryBody> bodies, Func<IAdoption, Revision?>? read = null) =>
        bodies.Aggregate(Situation.Empty, (situation, body) => RegisteredVerbs.Table.Apply(situation, body, read ?? Read)).Prepared();

    /// <summary>The situation by entries that are carried, each applied as if it were in this ledger.</summary>
    /// <param name="carried">The entries, in their order.</param>
    /// <param name="begins">The first entry of the ledger.</param>
    /// <param name="read">Reads the revision that an entry adopts; null: when its values do not give its digest, an exception is thrown.</param>
    public static Situation Of(IEnumerable<EntryBody> carried, long begins, Func<IAdoption, Revision?>? read = null) =>
        All(carried, read).BeginningWith(begins);

    private static Revision Read(IAdoption body)
    {
        var reading = RevisionReader.FromContent(Encoding.UTF8.GetBytes(body.Content.GetRawText()), $"entry {body.Serial}");
        if (reading.Revision is not { } revision || revision.Digest != body.Digest)
        {
            throw new InvalidDataException(
                $"entry {body.Serial} holds revision {body.Revision} of {body.Fixture}, whose values do not give its digest: "
                    + $"{string.Join("; ", reading.Faults)}");
        }

        return revision;
    }
}

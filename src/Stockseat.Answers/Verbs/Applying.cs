using System.Text;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Roll;
using Stockseat.Answers.State;
using Stockseat.Fixtures.Revisions;

namespace Stockseat.Answers.Verbs;

/// <summary>What holds after an entry: a start, a recovery and a replay make it by applying entries in their order.</summary>
public static class Applying
{
    /// <summary>What holds after an entry.</summary>
    /// <exception cref="InvalidDataException">It adopts a revision whose content does not read back to its digest.</exception>
    public static Situation Apply(this Situation situation, EntryBody body) => situation.Apply(body, Read);

    /// <summary>The same for a replay, which a revision that can't be read does not end: then none is in force.</summary>
    /// <param name="situation">What held before it.</param>
    /// <param name="body">The entry.</param>
    /// <param name="read">Reads the revision that an entry adopts; null when it does not read back to its digest.</param>
    public static Situation Apply(this Situation situation, EntryBody body, Func<IAdoption, Revision?> read)
    {
        var after = RegisteredVerbs.Table.Apply(situation, body, read);
        return body is IAdoption or RolledOverBody ? after.Prepared() : after;
    }

    /// <summary>What holds after many entries: only what is in force after the last of them is prepared to be decided on.</summary>
    /// <param name="bodies">The entries, in their order.</param>
    /// <param name="read">Reads the revision that an entry adopts; null: as <see cref="Apply(Situation, EntryBody)"/> does.</param>
    /// <exception cref="InvalidDataException">One adopts a revision whose content does not read back to its digest, and there is no such reader.</exception>
    public static Situation All(IEnumerable<EntryBody> bodies, Func<IAdoption, Revision?>? read = null) =>
        bodies.Aggregate(Situation.Empty, (situation, body) => RegisteredVerbs.Table.Apply(situation, body, read ?? Read)).Prepared();

    /// <summary>What entries say that are carried, each applied as if it stood here.</summary>
    /// <param name="carried">The entries, in their order.</param>
    /// <param name="begins">The first entry of the ledger.</param>
    /// <param name="read">Reads the revision that an entry adopts; null: one that does not read back to its digest is an exception.</param>
    public static Situation Of(IEnumerable<EntryBody> carried, long begins, Func<IAdoption, Revision?>? read = null) =>
        All(carried, read).BeginningWith(begins);

    private static Revision Read(IAdoption body)
    {
        var reading = RevisionReader.FromContent(Encoding.UTF8.GetBytes(body.Content.GetRawText()), $"entry {body.Serial}");
        if (reading.Revision is not { } revision || revision.Digest != body.Digest)
        {
            throw new InvalidDataException(
                $"entry {body.Serial} holds revision {body.Revision} of {body.Fixture}, which does not read back to its digest: "
                    + $"{string.Join("; ", reading.Faults)}");
        }

        return revision;
    }
}

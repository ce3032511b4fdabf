using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;

namespace Stockseat.Answers.Asking;

/// <summary>
/// A verb of the protocol: everything that deciding, asking again, replaying and continuing after a restart need of it. One folder holds a verb, and one line
/// in the table registers it.
/// </summary>
public abstract class Verb
{
    /// <summary>The name of the verb, as refusals record it.</summary>
    public abstract string Name { get; }

    /// <summary>
    /// The kind of the entry that the verb leads to when it is not refused; null: it leads to none, and its outcome is an entry that is in the ledger already.
    /// </summary>
    public abstract EntryKind? Kind { get; }

    /// <summary>Decides an ask. The table adds who asked to the entry.</summary>
    /// <param name="ask">The ask.</param>
    /// <param name="situation">The situation.</param>
    /// <param name="at">The instant.</param>
    /// <param name="find">Finds an answer by its serial; null when that serial is not an answer.</param>
    public abstract EntryBody Decide(Ask ask, Situation situation, DateTimeOffset at, Func<long, EntryBody?> find);

    /// <summary>The ask that led to an entry of the verb's kind; null: the body does not hold all of the ask.</summary>
    public abstract Ask? AskOfEntry(EntryBody body);

    /// <summary>The ask that led to a refusal; null: the body does not hold all of the ask.</summary>
    public abstract Ask? AskOfRefusal(RefusalBody body);

    /// <summary>Whether an ask is the one that led to an entry, as far as the body says.</summary>
    public abstract bool IsSame(Ask ask, EntryBody first);

    /// <summary>Whether an ask about the same fixture is the one that was refused.</summary>
    public abstract bool IsSameRefused(Ask ask, RefusalBody first);

    /// <summary>Why an entry does not hold any more; null while it does.</summary>
    public abstract string? Lapsed(EntryBody first, DecidedAfresh now);

    /// <summary>Why a refusal that would be the same now does not hold any more; null while it does.</summary>
    public virtual string? LapsedRefusal(RefusalBody first, DecidedAfresh now) => null;

    /// <summary>The word for an entry of the verb's kind in the text of a refusal.</summary>
    public virtual string Outcome => Kind?.Name ?? Name;

    /// <summary>Whether somebody asked for an entry of the verb's kind, so that the entry follows from its inputs.</summary>
    public virtual bool IsAskedFor(EntryBody body) => true;

    /// <summary>Whether the verb's entries depend on the revision in force.</summary>
    public virtual bool RestsOnRevision => false;

    /// <summary>Whether the revision that the verb's refusals name is the one in force.</summary>
    public virtual bool RefusalNamesRevisionInForce => false;

    /// <summary>Whether a refusal "not permitted" is about the content of the ask, and not about who may ask at all.</summary>
    public virtual bool IsDeniedByContent(RefusalBody body) => false;

    /// <summary>The situation after a refusal.</summary>
    public virtual Situation ApplyRefusal(Situation situation, RefusalBody body) => situation;

    /// <summary>The groups of entries of its fixture in which a refusal counts as long as it is the newest; see <see cref="EntryKind.NewestOf"/>.</summary>
    public virtual IReadOnlyList<string> RefusalNewestOf(RefusalBody body) => [];

    /// <summary>
    /// What the reply says when an ask was refused before it could be decided, and when the measurement is doubtful without that ask; null: the verb has no
    /// effect on measurements.
    /// </summary>
    public virtual string? NotTaken(Ask ask) => null;

    /// <summary>The entry that is written later, to say that such an ask was refused before it was decided.</summary>
    public virtual EntryBody Undecided(Ask ask, Refusal refusal, Situation situation) =>
        throw new InvalidOperationException($"{Name} has no effect on measurements");
}

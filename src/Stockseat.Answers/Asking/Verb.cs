using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;

namespace Stockseat.Answers.Asking;

/// <summary>
/// A verb of the protocol: all that deciding, asking again, replaying and going on after a restart need of it. One folder holds a verb, and one line of the
/// table registers it.
/// </summary>
public abstract class Verb
{
    /// <summary>Its name, as refusals record it.</summary>
    public abstract string Name { get; }

    /// <summary>The kind of entry that it comes to when it is not refused; null: it comes to none, and its outcome is an entry that is there already.</summary>
    public abstract EntryKind? Kind { get; }

    /// <summary>Decides an ask; who asked is put into the entry by the table.</summary>
    /// <param name="ask">The ask.</param>
    /// <param name="situation">What holds.</param>
    /// <param name="at">The instant.</param>
    /// <param name="find">Finds an answer by its serial; null when that serial is no answer.</param>
    public abstract EntryBody Decide(Ask ask, Situation situation, DateTimeOffset at, Func<long, EntryBody?> find);

    /// <summary>The ask that an entry of its kind came from; null: its body does not hold all of it.</summary>
    public abstract Ask? AskOfEntry(EntryBody body);

    /// <summary>The ask that a refusal of it came from; null: its body does not hold all of it.</summary>
    public abstract Ask? AskOfRefusal(RefusalBody body);

    /// <summary>Whether an ask is the one that an entry of its kind came from, as far as its body says.</summary>
    public abstract bool IsSame(Ask ask, EntryBody first);

    /// <summary>Whether an ask about the same fixture is the one that was refused.</summary>
    public abstract bool IsSameRefused(Ask ask, RefusalBody first);

    /// <summary>Why an entry of its kind holds no more; null while it does.</summary>
    public abstract string? Lapsed(EntryBody first, DecidedAfresh now);

    /// <summary>Why a refusal of it, which would be the same now, holds no more; null while it does.</summary>
    public virtual string? LapsedRefusal(RefusalBody first, DecidedAfresh now) => null;

    /// <summary>How an entry of its kind is called in a refusal's text.</summary>
    public virtual string Outcome => Kind?.Name ?? Name;

    /// <summary>Whether an entry of its kind was asked for, so that it follows from its inputs.</summary>
    public virtual bool IsAskedFor(EntryBody body) => true;

    /// <summary>Whether its entries come from the revision in force.</summary>
    public virtual bool RestsOnRevision => false;

    /// <summary>Whether the revision that its refusals name is the one in force.</summary>
    public virtual bool RefusalNamesRevisionInForce => false;

    /// <summary>Whether a refusal that says "not permitted" is about what was asked for, and not about who may ask at all.</summary>
    public virtual bool IsDeniedByContent(RefusalBody body) => false;

    /// <summary>What holds after a refusal of it.</summary>
    public virtual Situation ApplyRefusal(Situation situation, RefusalBody body) => situation;

    /// <summary>Among which entries of its fixture a refusal of it counts as long as it is the newest, as <see cref="EntryKind.NewestOf"/>.</summary>
    public virtual IReadOnlyList<string> RefusalNewestOf(RefusalBody body) => [];

    /// <summary>
    /// What a sender is told whose ask was refused before it could be decided, and without which the measurement that stands is doubtful; null: no
    /// measurement hangs on the verb.
    /// </summary>
    public virtual string? NotTaken(Ask ask) => null;

    /// <summary>The entry that says later that such an ask was refused undecided.</summary>
    public virtual EntryBody Undecided(Ask ask, Refusal refusal, Situation situation) => throw new InvalidOperationException($"no measurement hangs on {Name}");
}

using Stockseat.Answers.Entries;
using Stockseat.Answers.State;

namespace Stockseat.Answers.Asking;

/// <summary>A verb with asks and entries of a type.</summary>
/// <typeparam name="TAsk">The type of its asks.</typeparam>
/// <typeparam name="TBody">The type of its entries.</typeparam>
public abstract class Verb<TAsk, TBody> : Verb
    where TAsk : Ask
    where TBody : EntryBody
{
    public sealed override EntryBody Decide(Ask ask, Situation situation, DateTimeOffset at, Func<long, EntryBody?> find) =>
        Decide((TAsk)ask, situation, at, find);

    public sealed override Ask? AskOfEntry(EntryBody body) => AskOf((TBody)body);

    public sealed override Ask? AskOfRefusal(RefusalBody body) => AskOfRefused(body);

    public sealed override bool IsSame(Ask ask, EntryBody first) => ask is TAsk a && first is TBody b && IsSame(a, b);

    public sealed override bool IsSameRefused(Ask ask, RefusalBody first) => ask is TAsk a && IsSameRefused(a, first);

    public sealed override string? Lapsed(EntryBody first, DecidedAfresh now) => Lapsed((TBody)first, now);

    protected abstract EntryBody Decide(TAsk ask, Situation situation, DateTimeOffset at, Func<long, EntryBody?> find);

    protected abstract TAsk? AskOf(TBody body);

    protected abstract TAsk? AskOfRefused(RefusalBody body);

    protected abstract bool IsSame(TAsk ask, TBody first);

    protected abstract bool IsSameRefused(TAsk ask, RefusalBody first);

    protected abstract string? Lapsed(TBody first, DecidedAfresh now);
}

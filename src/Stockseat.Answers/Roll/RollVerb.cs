using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.State;

namespace Stockseat.Answers.Roll;

/// <summary>Somebody makes the ledger roll over.</summary>
internal sealed class RollVerb : Verb<RollAsk, RolledOverBody>
{
    public override string Name => RollAsk.VerbName;

    public override EntryKind Kind { get; } = new RolledOverKind();

    public override string Outcome => "roll";

    /// <summary>The beginning of the new ledger follows from the end of the old one.</summary>
    public override bool IsAskedFor(EntryBody body) => body is RolledOverBody { IsEnd: true };

    protected override EntryBody Decide(RollAsk ask, Situation situation, DateTimeOffset at, Func<long, EntryBody?> find) => ask.Denied is { } denied
        ? ask.Refuse(denied) with { By = ask.By, Why = ask.Why }
        : new RolledOverBody { Next = ask.Next, By = ask.By, Why = ask.Why };

    protected override RollAsk? AskOf(RolledOverBody b) => b is { IsEnd: true, By: { } by, Why: { } why, Next: { } next }
        ? new(Caller.Of(b)) { By = by, Why = why, Next = next }
        : null;

    protected override RollAsk? AskOfRefused(RefusalBody b) => b is { By: { } by, Why: { } why } ? new(Caller.Of(b)) { By = by, Why = why, Next = "" } : null;

    protected override bool IsSame(RollAsk a, RolledOverBody b) => (a.By, a.Why) == (b.By, b.Why);

    protected override bool IsSameRefused(RollAsk a, RefusalBody r) => true;

    protected override string? Lapsed(RolledOverBody first, DecidedAfresh now) => now.Situation.Begins == first.Serial + 1
        ? null
        : $"the ledger rolled over again and now begins with entry {now.Situation.Begins}";
}

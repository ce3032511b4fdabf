using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;

namespace Stockseat.Answers.Hold;

/// <summary>Somebody has finished at a fixture, or ends the hold of somebody else.</summary>
internal sealed class ReleaseVerb : Verb<ReleaseAsk, ReleasedBody>
{
    public override string Name => ReleaseAsk.VerbName;

    public override EntryKind Kind { get; } = new ReleasedKind();

    public override string Outcome => "release";

    public override bool RefusalNamesRevisionInForce => true;

    protected override EntryBody Decide(ReleaseAsk ask, Situation situation, DateTimeOffset at, Func<long, EntryBody?> find)
    {
        var state = situation.Find(ask.Fixture);
        var refusal = ask.Denied ?? (state is null ? Unserved.Unknown(ask.Fixture) : NotHeld(ask, state));
        return refusal is null
            ? new ReleasedBody { Fixture = ask.Fixture, By = ask.By, Why = ask.Why, Of = ask.Of, Left = state!.Holds.Count - 1 }
            : ask.Refuse(refusal, state) with { By = ask.By, Why = ask.Why, Of = ask.Of };
    }

    protected override ReleaseAsk AskOf(ReleasedBody b) => new(Caller.Of(b), b.Fixture ?? "") { By = b.By, Why = b.Why, Of = b.Of };

    protected override ReleaseAsk? AskOfRefused(RefusalBody b) =>
        b is { By: { } by, Why: { } why, Of: { } of } ? new(Caller.Of(b), b.Fixture ?? "") { By = by, Why = why, Of = of } : null;

    protected override bool IsSame(ReleaseAsk a, ReleasedBody b) => (a.Fixture, a.By, a.Why, a.Of) == (b.Fixture, b.By, b.Why, b.Of);

    protected override bool IsSameRefused(ReleaseAsk a, RefusalBody r) => (a.By, a.Why, a.Of) == (r.By, r.Why, r.Of);

    protected override string? Lapsed(ReleasedBody first, DecidedAfresh now) =>
        now.Of(first)?.Holds.GetValueOrDefault(first.Of) is { } hold ? $"entry {hold.Serial} is a new hold of that name"
        : now.HeldSince(first) ? "that name has held the fixture again since" : null;

    private static Refusal? NotHeld(ReleaseAsk ask, FixtureState state)
    {
        if (state.Holds.ContainsKey(ask.Of))
        {
            return null;
        }

        var of = Refusal.Cut(ask.Of);
        return new(Reason.ValueMalformed, state.Holds.IsEmpty
            ? $"{state.Fixture} is not held, so there is no hold of {of} to release; stockseat fixture list shows what is held"
            : $"{state.Fixture} is not held by {of}; it is held {Unserved.Holders(state)}; state with --of WHO whose hold is to be released");
    }
}

using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.State;

namespace Stockseat.Answers.Hold;

/// <summary>Somebody is at a fixture: as long as anybody is, no ask is answered.</summary>
internal sealed class HoldVerb : Verb<HoldAsk, HeldBody>
{
    public override string Name => HoldAsk.VerbName;

    public override EntryKind Kind { get; } = new HeldKind();

    public override string Outcome => "hold";

    public override bool RefusalNamesRevisionInForce => true;

    protected override EntryBody Decide(HoldAsk ask, Situation situation, DateTimeOffset at, Func<long, EntryBody?> find)
    {
        var state = situation.Find(ask.Fixture);
        var refusal = ask.Denied ?? (state is null ? Unserved.Unknown(ask.Fixture) : null);
        return refusal is null
            ? new HeldBody { Fixture = ask.Fixture, By = ask.By, Why = ask.Why }
            : ask.Refuse(refusal, state) with { By = ask.By, Why = ask.Why };
    }

    protected override HoldAsk AskOf(HeldBody b) => new(Caller.Of(b), b.Fixture ?? "") { By = b.By, Why = b.Why };

    protected override HoldAsk? AskOfRefused(RefusalBody b) =>
        b is { By: { } by, Why: { } why } ? new(Caller.Of(b), b.Fixture ?? "") { By = by, Why = why } : null;

    protected override bool IsSame(HoldAsk a, HeldBody b) => (a.Fixture, a.By, a.Why) == (b.Fixture, b.By, b.Why);

    protected override bool IsSameRefused(HoldAsk a, RefusalBody r) => (a.By, a.Why) == (r.By, r.Why);

    /// <summary>When the same name holds again, its first hold counts, so that hold may be older than the one that was asked for.</summary>
    protected override string? Lapsed(HeldBody first, DecidedAfresh now) => now.Of(first)?.Holds.GetValueOrDefault(first.By) switch
    {
        null => "the hold was released",
        var hold => hold.Serial <= first.Serial ? null : $"the hold was released, and entry {hold.Serial} is a new one",
    };
}

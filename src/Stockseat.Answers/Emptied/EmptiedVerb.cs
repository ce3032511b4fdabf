using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;

namespace Stockseat.Answers.Emptied;

/// <summary>The nests were cleared or refilled.</summary>
internal sealed class EmptiedVerb : Verb<EmptiedAsk, EmptiedBody>
{
    public override string Name => EmptiedAsk.VerbName;

    public override EntryKind Kind { get; } = new EmptiedKind();

    public override string? NotTaken(Ask ask) =>
        $"this emptied of {ask.Fixture} is not recorded yet, and no measurement of {ask.Fixture} is used until the next push: send emptied again";

    public override EntryBody Undecided(Ask ask, Refusal refusal, Situation situation) =>
        new EmptiedBody { Fixture = ask.Fixture, Undecided = refusal.Info.Name };

    protected override EntryBody Decide(EmptiedAsk ask, Situation situation, DateTimeOffset at, Func<long, EntryBody?> find)
    {
        var refusal = ask.Denied ?? (situation.Find(ask.Fixture) is null ? Unserved.Unknown(ask.Fixture) : null);
        return refusal is null ? new EmptiedBody { Fixture = ask.Fixture, Undecided = ask.Undecided } : ask.Refuse(refusal);
    }

    protected override EmptiedAsk AskOf(EmptiedBody b) => new(Caller.Of(b), b.Fixture ?? "") { Undecided = b.Undecided };

    protected override EmptiedAsk AskOfRefused(RefusalBody b) => new(Caller.Of(b), b.Fixture ?? "");

    protected override bool IsSame(EmptiedAsk a, EmptiedBody b) => a.Fixture == b.Fixture;

    protected override bool IsSameRefused(EmptiedAsk a, RefusalBody r) => true;

    protected override string? Lapsed(EmptiedBody first, DecidedAfresh now) => now.MeasuredSince(first);
}

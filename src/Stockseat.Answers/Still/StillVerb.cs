using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Referring;
using Stockseat.Answers.State;

namespace Stockseat.Answers.Still;

/// <summary>May an answer still be used? While it may, the outcome is the answer itself, and nothing is written.</summary>
internal sealed class StillVerb : Verb<StillAsk, AnswerBody>
{
    public override string Name => StillAsk.VerbName;

    /// <summary>It makes no entries of its own.</summary>
    public override EntryKind? Kind => null;

    public override bool IsDeniedByContent(RefusalBody body) => body.Fixture is not null;

    protected override EntryBody Decide(StillAsk ask, Situation situation, DateTimeOffset at, Func<long, EntryBody?> find)
    {
        var refused = ReferredAnswer.Refused(ask, situation, find, out var answer)
            ?? Superseded.By(answer!, situation.Find(answer!.Fixture!), situation.StepBack, at);
        return refused is null ? answer! : ReferredAnswer.Refuse(ask, refused, answer);
    }

    protected override StillAsk? AskOf(AnswerBody body) => null;

    protected override StillAsk? AskOfRefused(RefusalBody b) => b.Answer is not { } serial ? null : new(Caller.Of(b), serial)
    {
        Fixtures = ReferredAnswer.FixturesOf(b),
        OwnAnswersOnly = ReferredAnswer.IsOfAnother(b),
    };

    protected override bool IsSame(StillAsk ask, AnswerBody first) => ask.Serial == first.Serial;

    protected override bool IsSameRefused(StillAsk ask, RefusalBody first) => ask.Serial == first.Answer;

    protected override string? Lapsed(AnswerBody first, DecidedAfresh now) => null;
}

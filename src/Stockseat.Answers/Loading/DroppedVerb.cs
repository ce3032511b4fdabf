using System.Globalization;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Referring;
using Stockseat.Answers.State;

namespace Stockseat.Answers.Loading;

/// <summary>The move of an answer of a load was not carried out. Only the one that is unfinished can be dropped.</summary>
internal sealed class DroppedVerb : Verb<DroppedAsk, DroppedBody>
{
    public override string Name => DroppedAsk.VerbName;

    public override EntryKind Kind { get; } = new DroppedKind();

    /// <summary>Who may not say so of this answer may say so of others.</summary>
    public override bool IsDeniedByContent(RefusalBody body) => body.Fixture is not null;

    protected override EntryBody Decide(DroppedAsk ask, Situation situation, DateTimeOffset at, Func<long, EntryBody?> find)
    {
        var refusal = ReferredAnswer.Refused(ask, situation, find, out var answer);
        var load = answer is null ? null : situation.Find(answer.Fixture!)?.Load;
        var isAgain = answer is not null && load?.Dropped?.Answer == answer.Serial;
        refusal ??= isAgain || load?.Open?.Answer == answer!.Serial ? null : NotOpen(answer!, load);
        return refusal is null
            ? new DroppedBody
            {
                Fixture = answer!.Fixture,
                Revision = answer.Revision,
                Digest = answer.Digest,
                Answer = answer.Serial,
                Load = load!.Serial,
                Purpose = answer.Purpose,
                Nest = answer.Nest,
                Again = isAgain ? true : null,
                By = ask.By,
            }
            : ReferredAnswer.Refuse(ask, refusal, answer) with { By = ask.By };
    }

    protected override DroppedAsk AskOf(DroppedBody b) => new(Caller.Of(b), b.Answer) { By = b.By };

    protected override DroppedAsk? AskOfRefused(RefusalBody b) => b.Answer is not { } serial ? null : new(Caller.Of(b), serial)
    {
        By = b.By,
        Fixtures = ReferredAnswer.FixturesOf(b),
        OwnAnswersOnly = ReferredAnswer.IsOfAnother(b),
    };

    protected override bool IsSame(DroppedAsk a, DroppedBody b) => (a.Serial, a.By) == (b.Answer, b.By);

    protected override bool IsSameRefused(DroppedAsk a, RefusalBody r) => (a.Serial, a.By) == (r.Answer, r.By);

    /// <summary>It was dropped, whatever came since.</summary>
    protected override string? Lapsed(DroppedBody first, DecidedAfresh now) => null;

    private static Refusal NotOpen(AnswerBody answer, Load? load)
    {
        var serial = answer.Serial.ToString(CultureInfo.InvariantCulture);
        return Refusal.Of(
            Reason.AnswerSuperseded,
            answer.Load is null ? $"answer {serial} was not given by next, so it belongs to no load"
            : load?.Serial != answer.Load ? $"the load of answer {serial} has ended"
            : $"the move of answer {serial} is finished already");
    }
}

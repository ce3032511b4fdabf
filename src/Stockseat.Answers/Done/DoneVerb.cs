using System.Globalization;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Referring;
using Stockseat.Answers.State;

namespace Stockseat.Answers.Done;

/// <summary>The move of an answer was carried out and went well.</summary>
internal sealed class DoneVerb : Verb<DoneAsk, DoneBody>
{
    public override string Name => DoneAsk.VerbName;

    public override EntryKind Kind { get; } = new DoneKind();

    /// <summary>Who may not say so of this answer may say so of others.</summary>
    public override bool IsDeniedByContent(RefusalBody body) => body.Fixture is not null;

    protected override EntryBody Decide(DoneAsk ask, Situation situation, DateTimeOffset at, Func<long, EntryBody?> find)
    {
        if (ReferredAnswer.Refused(ask, situation, find, out var answer) is { } refused)
        {
            return Refuse(ask, refused, answer);
        }

        var progress = situation.Find(answer!.Fixture!)?.Progress ?? Progress.None;
        var known = progress.Received.TryGetValue(answer.Serial, out var confirmation);
        var load = situation.Find(answer.Fixture!)?.Load;
        var isSettled = ask.By is not null && load?.Open?.Answer == answer.Serial;
        if (!known && !isSettled && !IsDoneBefore(progress, answer))
        {
            var since = answer.Serial <= progress.Since ? $"; since entry {Whole(progress.Since)} nothing from before it counts" : "";
            return Refuse(ask, Refusal.Of(
                Reason.ConfirmationMissing,
                $"the numbers of answer {Whole(answer.Serial)} were not read back completely, so nobody knows whether the controller had "
                    + $"them{since}{Settle(load, answer)}"), answer);
        }

        return new DoneBody
        {
            Fixture = answer.Fixture,
            Revision = answer.Revision,
            Digest = answer.Digest,
            Answer = answer.Serial,
            Confirmation = known ? confirmation : null,
            Purpose = answer.Purpose,
            Nest = answer.Nest,
            ShiftBase = answer.ShiftBase,
            Load = answer.Load is { } of && of == load?.Serial ? of : null,
            By = ask.By,
        };
    }

    protected override DoneAsk AskOf(DoneBody b) => new(Caller.Of(b), b.Answer) { By = b.By };

    protected override DoneAsk? AskOfRefused(RefusalBody b) => b.Answer is not { } serial ? null : new(Caller.Of(b), serial)
    {
        By = b.By,
        Fixtures = ReferredAnswer.FixturesOf(b),
        OwnAnswersOnly = ReferredAnswer.IsOfAnother(b),
    };

    protected override bool IsSame(DoneAsk a, DoneBody b) => (a.Serial, a.By) == (b.Answer, b.By);

    protected override bool IsSameRefused(DoneAsk a, RefusalBody r) => (a.Serial, a.By) == (r.Answer, r.By);

    /// <summary>It was carried out, whatever came since.</summary>
    protected override string? Lapsed(DoneBody first, DecidedAfresh now) => null;

    /// <summary>Said again, since the reply was lost.</summary>
    private static bool IsDoneBefore(Progress progress, AnswerBody answer) =>
        progress.Nests.TryGetValue((PurposeNames.Find(answer.Purpose) ?? Purpose.Pick, answer.Nest[0], answer.Nest[1]), out var done)
            && done.Answer == answer.Serial;

    /// <summary>
    /// A move of a load whose numbers were never read back is settled by whoever looked at the nest: that empties or fills it, and the next answer stays first.
    /// </summary>
    private static string Settle(Load? load, AnswerBody answer) => load?.Open?.Answer != answer.Serial ? ""
        : $"; if somebody looked at nest {answer.Nest[0]},{answer.Nest[1]} and it was carried out, let them say so with their name";

    private static RefusalBody Refuse(DoneAsk ask, Refusal refusal, AnswerBody? answer) =>
        ReferredAnswer.Refuse(ask, refusal, answer) with { By = ask.By };

    private static string Whole(long number) => number.ToString(CultureInfo.InvariantCulture);
}

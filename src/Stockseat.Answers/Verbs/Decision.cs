using Stockseat.Answers.Adopt;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Confirm;
using Stockseat.Answers.Emptied;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Hold;
using Stockseat.Answers.Locate;
using Stockseat.Answers.Lots;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Positions;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Recheck;
using Stockseat.Answers.Roll;
using Stockseat.Answers.State;

namespace Stockseat.Answers.Verbs;

/// <summary>
/// Decides an ask: a pure function of the ask, the situation and the instant. What it returns is the entry; serial and instant are
/// the writer's. The service and a replay call the same code.
/// </summary>
public static class Decision
{
    /// <summary>Decides.</summary>
    /// <param name="ask">The ask.</param>
    /// <param name="situation">What holds.</param>
    /// <param name="at">The instant.</param>
    /// <param name="findAnswer">Finds an answer by its serial; null when that serial is no answer.</param>
    public static EntryBody Decide(Ask ask, Situation situation, DateTimeOffset at, Func<long, AnswerBody?> findAnswer)
    {
        EntryBody body = ask switch
        {
            LocateAsk a => Locating.Decide(a, situation, at),
            MeasureAsk a => Measure.Decide(a, situation, at),
            EmptiedAsk a => Emptied(a, situation),
            ConfirmAsk a => Confirming.Decide(a, situation, findAnswer),
            AdoptAsk a => Adopting.Decide(a, situation),
            RecheckAsk a => Rechecking.Decide(a, situation),
            HoldAsk a => Holding.Decide(a, situation),
            DescribeLotAsk a => Describing.Decide(a),
            RollAsk a => a.Denied is { } denied ? Refuse(a, denied) with { By = a.By, Why = a.Why } : new RolledOverBody { Next = a.Next, By = a.By, Why = a.Why },
            ReleaseAsk a => Holding.Decide(a, situation),
            _ => throw new ArgumentOutOfRangeException(nameof(ask), ask, "no such ask"),
        };
        (body.Client, body.Cell, body.Address, body.Tag, body.Request) = ask.Caller;
        return body;
    }

    /// <summary>A refusal's entry with what is known of the ask, but for who asked.</summary>
    public static RefusalBody Refuse(Ask ask, Refusal refusal, FixtureState? state = null) => new()
    {
        Asked = ask.Verb,
        Reason = refusal.Info.Name,
        Number = (int)refusal.Reason,
        Text = refusal.Text,
        Limits = refusal.Limits,
        Fixture = ask.Fixture.Length == 0 ? null : ask.Fixture,
        Revision = state?.InForce?.Number,
        Digest = state?.InForce?.Digest,
    };

    /// <summary>Why a fixture answers nothing now; null when it does.</summary>
    internal static Refusal? Unserved(string fixture, FixtureState? state) =>
        Absent(fixture, state) ?? Holding.Held(state!) ?? Uncalibrated(fixture, state!) ?? Rechecking.Failed(state!);

    /// <summary>Why there is no such fixture; null when it is there.</summary>
    internal static Refusal? Absent(string fixture, FixtureState? state) => state switch
    {
        null => Unknown(fixture),
        { Folder: null } => Refusal.Of(Reason.FixtureWithdrawn, $"the folder of fixture {fixture} is gone"),
        _ => null,
    };

    /// <summary>Why no revision of a fixture can be used; null when the one in force can.</summary>
    internal static Refusal? Uncalibrated(string fixture, FixtureState state)
    {
        if (state.InForce is not { } revision)
        {
            var waiting = string.Join(", ", state.Waiting);
            var what = waiting.Length > 0 ? $"revision {waiting} waits to be adopted" : "no revision file of it is valid";
            return new(Reason.CalibrationUnusable, waiting.Length > 0
                ? $"no revision of {fixture} is in force: {what}; adopt it with stockseat fixture adopt {fixture} {waiting.Split(", ")[^1]} --by WHO --why WHY"
                : $"no revision of {fixture} is in force: {what}; {ReasonInfo.Of(Reason.CalibrationUnusable).Advice}");
        }

        return state.Changed
            ? Refusal.Of(Reason.RevisionChanged, $"the file of revision {revision.Number} of {fixture}, which is in force, now reads differently")
            : Fit.Unusable(revision);
    }

    /// <summary>The refusal of a fixture that neither the ledger nor a folder knows.</summary>
    internal static Refusal Unknown(string fixture) => Refusal.Of(Reason.FixtureUnknown, $"there is no fixture {fixture}");

    private static EntryBody Emptied(EmptiedAsk ask, Situation situation)
    {
        var state = situation.Find(ask.Fixture);
        var refusal = ask.Denied ?? (state is null ? Unknown(ask.Fixture) : null);
        return refusal is null ? new EmptiedBody { Fixture = ask.Fixture, Undecided = ask.Undecided } : Refuse(ask, refusal);
    }
}

using Microsoft.Data.Sqlite;
using Stockseat.Answers.Deciding;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Records;

namespace Stockseat.Ledger.Writing;

/// <summary>Decides what queued, one after the other, and writes the entries.</summary>
/// <param name="clock">Their instants.</param>
/// <param name="failed">Told when deciding one ask failed: a bug. The others go on.</param>
internal sealed class Decider(StepClock clock, Action<Exception> failed)
{
    public void Decide(LedgerSession session, Pending pending)
    {
        var at = clock.Look(out var step);
        try
        {
            if (step is not null)
            {
                session.AppendStep(step, at); // The decision rests on the entries before it, and on no clock.
            }

            if (pending.Folders is { } folders)
            {
                session.Situation = folders(session.Situation);
            }

            foreach (var body in pending.Ask is { } ask ? [DecideAsk(session, ask, at)] : pending.Make!(session.Situation))
            {
                if (body.Serial == 0)
                {
                    session.Append(body, at);
                }

                pending.Outcome = new(body, null);
            }
        }
        catch (Exception e) when (e is not (SqliteException or IOException))
        {
            failed(e);
            pending.Outcome = AppendOutcome.Of(Refusal.Of(Reason.InternalFailure, "deciding failed"));
        }
    }

    /// <summary>A retry gets the first outcome; the id of another ask is refused.</summary>
    private static EntryBody DecideAsk(LedgerSession session, Ask ask, DateTimeOffset at)
    {
        EntryBody Decided() => Decision.Decide(ask, session.Situation, at, session.FindAnswer);
        return session.FirstOutcome(ask.Caller) is { } first ? Retry.Outcome(ask, first, Decided) : Decided();
    }
}

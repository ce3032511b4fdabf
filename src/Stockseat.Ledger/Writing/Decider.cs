using Microsoft.Data.Sqlite;
using Stockseat.Answers.Entries;
using Stockseat.Answers.Reasons;
using Stockseat.Ledger.Seals;
using Stockseat.Ledger.Sessions;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Writing;

/// <summary>Decides everything in a batch, one after the other, and writes the entries.</summary>
/// <param name="clock">Gives the entries' instants.</param>
/// <param name="sealing">The key that seals the ledger, and when.</param>
/// <param name="doubts">Pushes that were refused before they were decided.</param>
/// <param name="arrivals">What happened to pushes on their way.</param>
/// <param name="failed">Called when deciding one ask failed, which is a bug. The others are decided.</param>
internal sealed class Decider(StepClock clock, Sealing sealing, Doubts doubts, Arrivals arrivals, Action<Exception> failed)
{
    /// <summary>Decides and writes a whole batch; when it returns, the entries are on the disk.</summary>
    public void Write(LedgerSession session, List<Pending> batch)
    {
        session.Begin();
        foreach (var pending in batch)
        {
            Decide(session, pending);
        }

        session.Commit();
    }

    private void Decide(LedgerSession session, Pending pending)
    {
        var at = clock.Look(out var step);
        try
        {
            if (step is not null)
            {
                session.AppendStep(step, at); // The decision rests on the entries before it, and not on a clock.
            }

            if (pending.Folders is { } folders)
            {
                session.Situation = folders(session.Situation);
            }

            var first = pending.Ask is { } asked ? Arrivals.First(asked, pending.Came) : 0;
            // The service's own entries are written before asks that may have come before the push.
            foreach (var late in pending is { Ask: null, IsLast: false, IsDue: false } ? [] : doubts.Due(session.Situation, pending.Ask, first))
            {
                session.Append(late, at);
            }

            foreach (var body in Made(session, pending, at))
            {
                if (body.Serial == 0)
                {
                    session.Append(body, at);
                    doubts.Decided(pending.Ask, first, body);
                    arrivals.Decided(pending, body);
                }

                pending.Outcome = new(body, null);
            }
        }
        catch (Exception e) when (e is not (SqliteException or IOException))
        {
            failed(e);
            pending.Outcome = AppendOutcome.Of(Refusal.Of(Reason.InternalFailure, "deciding failed"));
            doubts.Add(pending, pending.Outcome.Refusal!);
        }
    }

    private IEnumerable<EntryBody> Made(LedgerSession session, Pending pending, DateTimeOffset at) => pending switch
    {
        { IsSeal: true } => sealing.Key is { } key && session.MakeSeal(key, at) is { } seal ? [seal] : [],
        { IsSnapshot: true } => session.LacksSnapshot && session.MakeSnapshot() is { } snapshot ? [snapshot] : [],
        { Ask: not null } => [session.Decide(arrivals.Told(pending), at)],
        _ => pending.Make!(session.Situation),
    };
}

using Stockseat.Ledger.Sessions;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Writing;

/// <summary>What the writer does with the ledger between two batches: one thing after the other, each in the list below.</summary>
internal sealed class Between
{
    /// <summary>How long a ledger that nobody asks anything of may be without its files unseen.</summary>
    public static readonly TimeSpan LookAfter = TimeSpan.FromSeconds(1);

    private readonly Func<LedgerSession, LedgerSession>[] _afterABatch;
    private readonly Func<LedgerSession, LedgerSession>[] _whileIdle;
    private readonly RollTurn _rolls;
    private readonly Recovery _recovery;
    private readonly Standing _standing;
    private readonly StepClock _clock;

    public Between(RollTurn rolls, Recovery recovery, Standing standing, StepClock clock)
    {
        (_rolls, _recovery, _standing, _clock) = (rolls, recovery, standing, clock);
        _afterABatch = [CopyLog, RollOver, FinishRolls];
        _whileIdle = [Look, FinishRolls];
    }

    /// <summary>Does all of it.</summary>
    /// <param name="session">The ledger.</param>
    /// <param name="idle">Whether nothing was asked.</param>
    /// <param name="keep">Told which ledger it goes on with, as soon as that is known: what comes after may fail.</param>
    public void Run(LedgerSession session, bool idle, Action<LedgerSession> keep)
    {
        foreach (var next in idle ? _whileIdle : _afterABatch)
        {
            session = next(session);
            keep(session);
        }
    }

    /// <summary>So that no answer waits for it.</summary>
    private static LedgerSession CopyLog(LedgerSession session)
    {
        session.CopyLog();
        return session;
    }

    private static LedgerSession Look(LedgerSession session)
    {
        session.Look();
        return session;
    }

    /// <summary>Goes on in a new ledger when this one has ended, or ends it when it is large enough.</summary>
    private LedgerSession RollOver(LedgerSession session)
    {
        if (_rolls.End(session, _clock))
        {
            _standing.Publish(session);
        }

        if (!session.HasEnded)
        {
            return session;
        }

        var next = _recovery.Reopen(session);
        _standing.Take(next);
        return next;
    }

    private LedgerSession FinishRolls(LedgerSession session)
    {
        _rolls.Finish();
        return session;
    }
}

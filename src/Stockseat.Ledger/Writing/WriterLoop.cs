using Microsoft.Data.Sqlite;
using Stockseat.Ledger.Seals;
using Stockseat.Ledger.Sessions;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Writing;

/// <summary>
/// The rounds of the writer's thread: take the queue, write it, and then go through the list of steps, one after the other.
/// </summary>
internal sealed class WriterLoop
{
    /// <summary>How long a ledger that nobody asks for anything may go without a check of its files.</summary>
    private static readonly TimeSpan LookAfter = TimeSpan.FromSeconds(1);

    // Other threads use these as well.
    private readonly PendingQueue _queue;
    private readonly Doubts _doubts;
    private readonly Availability _available;
    private readonly CommittedState _committed;
    private readonly Sealing _sealing;

    // Only the writer's thread uses these, once it runs.
    private readonly RollTurn _rolls;
    private readonly Recovery _recovery;
    private readonly Decider _decider;
    private readonly StepClock _clock;
    private readonly long _snapshotEvery;
    private readonly TimeProvider _time;
    private readonly WriterEvents _events;
    private readonly WriterStep[] _steps;
    private LedgerSession? _session;

    /// <param name="shared">The state that other threads use as well.</param>
    /// <param name="rolls">Decides whether the ledger rolls over.</param>
    /// <param name="recovery">Opens the ledger.</param>
    /// <param name="decider">Decides and writes.</param>
    /// <param name="clock">Gives the instants.</param>
    /// <param name="session">The ledger; null: it could not be opened.</param>
    /// <param name="snapshotEvery">After how many entries a snapshot is due.</param>
    /// <param name="time">Its counter measures how long a commit takes.</param>
    /// <param name="events">Who is told what happened.</param>
    public WriterLoop(
        (PendingQueue Queue, Doubts Doubts, Availability Available, CommittedState Committed, Sealing Sealing) shared,
        RollTurn rolls, Recovery recovery, Decider decider, StepClock clock, LedgerSession? session, long snapshotEvery, TimeProvider time,
        WriterEvents events)
    {
        (_queue, _doubts, _available, _committed, _sealing) = shared;
        (_rolls, _recovery, _decider, _clock, _session, _snapshotEvery, _time, _events) =
            (rolls, recovery, decider, clock, session, snapshotEvery, time, events);

        // Done between two batches, in this order, so that no answer waits for any of it. To add a step, add a line here.
        _steps =
        [
            WriterStep.Busy(s => s.CopyLog()),
            WriterStep.Idle(s => s.Look()),
            WriterStep.Busy(RollOver),
            WriterStep.Always(_ => _rolls.Finish()),
            WriterStep.Idle(WriteDoubts),
            WriterStep.Always(WriteSnapshot),
            WriterStep.Always(WriteSeal),
        ];
    }

    /// <summary>Runs until nothing more comes.</summary>
    /// <returns>Null, or the failure that can't be recovered from.</returns>
    public Exception? Run()
    {
        Exception? fatal = null;
        var batch = new List<Pending>();
        try
        {
            while (!_queue.IsCompleted)
            {
                Round(batch);
            }

            SealLast();
        }
        catch (Exception e)
        {
            fatal = e;
            _available.End();
            _queue.Complete();
            batch.AddRange(_queue.Rest());
            _doubts.Refuse(batch.FindAll(p => !p.Task.IsCompleted));
        }

        _sealing.Dispose();
        _session?.Dispose();
        return fatal;
    }

    private void Round(List<Pending> batch)
    {
        // It wakes by itself, to try again, or to check whether its files are still there.
        _queue.Take(batch, _session is null ? Recovery.RetryAfter : LookAfter);
        var idle = batch.Count == 0;
        if (_session is null)
        {
            Recover();
        }

        foreach (var part in BatchParts.Of(batch, _available.Begun, _snapshotEvery > 0))
        {
            Write(part);
        }

        batch.Clear();
        foreach (var step in _steps)
        {
            Do(step, idle);
        }
    }

    private void Do(WriterStep step, bool idle)
    {
        try
        {
            if (step.IsDue(idle) && _available.Begun && _session is { } session)
            {
                step.Do(session);
            }
        }
        catch (Exception e) when (e is SqliteException or IOException or UnauthorizedAccessException)
        {
            Lose(e);
        }
    }

    private void Write(List<Pending> batch)
    {
        if (_session is not { } session || !(_available.Begun || batch[0].IsStart))
        {
            _doubts.Refuse(batch);
            return;
        }

        var began = _time.GetTimestamp();
        try
        {
            if (_rolls.Refused(session, batch))
            {
                return;
            }

            _decider.Write(session, batch);
        }
        catch (Exception e) when (e is SqliteException or IOException)
        {
            Lose(e);
            _doubts.Refuse(batch);
            return;
        }

        var took = _time.GetElapsedTime(began);
        _clock.Keep();
        _sealing.Wrote(session.Head.Serial);
        _committed.Publish(session);
        if (batch[0] is { IsStart: true, Outcome.Refusal: null })
        {
            _available.Serve();
        }

        if (batch.Exists(p => p.ConcernsFixtures))
        {
            _events.FixturesChanged();
        }

        batch.ForEach(p => p.End(p.Outcome));
        _events.Committed(batch.Count, took);
    }

    /// <summary>Continues in a new ledger when this one has ended, or ends it when it is large enough.</summary>
    private void RollOver(LedgerSession session)
    {
        if (_rolls.End(session, _clock))
        {
            _committed.Publish(session);
        }

        if (session.HasEnded)
        {
            _session = _recovery.Reopen(session);
            _committed.Take(_session);
        }
    }

    private void WriteDoubts(LedgerSession session)
    {
        if (_doubts.Due(session.Situation).Count > 0)
        {
            Write([Pending.Due()]);
        }
    }

    private void WriteSnapshot(LedgerSession session)
    {
        if (session.IsSnapshotDue(_snapshotEvery))
        {
            Write([Pending.Snapshot()]);
        }
    }

    private void WriteSeal(LedgerSession session)
    {
        if (_sealing.IsDue(session.Unsealed))
        {
            Write([Pending.Seal()]);
        }
    }

    /// <summary>Seals the stop too.</summary>
    private void SealLast()
    {
        if (_available.Begun && _sealing.Key is not null && _session is { Unsealed: > 0 })
        {
            Write([Pending.Seal()]);
            _ = _session ?? throw new IOException("the ledger's last seal can't be written; the entries after the seal before it are unsealed");
        }
    }

    private void Lose(Exception cause)
    {
        _recovery.Lose(_session, cause);
        _session = null;
        _available.Lose(cause);
    }

    private void Recover()
    {
        if (_recovery.Try(_committed.Committed) is not { } session)
        {
            return;
        }

        _clock.Return(session.LastAt);
        _session = session;
        _committed.Take(session);
        if (_available.Begun)
        {
            _events.FixturesChanged();
            _available.Serve();
        }
        else
        {
            _committed.Find(session);
        }
    }
}

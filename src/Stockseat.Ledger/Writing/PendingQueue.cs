using Stockseat.Answers.Asking;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.Roll;

namespace Stockseat.Ledger.Writing;

/// <summary>
/// Everything that waits for the writer's thread. Each client has its own queue and a share of the whole. The queues are served in turn, one ask each, so a
/// client that floods harms only itself. The service's own entries are taken before all asks, and its last ones after them.
/// </summary>
internal sealed class PendingQueue
{
    private const int LongestBatch = 2048;

    /// <summary>How often a writer with nothing to do looks again before it sleeps: the next ask often comes at once.</summary>
    private const int Spins = 35;

    private static readonly Refusal Busy = Refusal.Of(Reason.TooBusy, $"{AskLimits.All} asks of all clients are waiting, which is the limit");
    private static readonly Refusal Stopping = Refusal.Of(Reason.ShuttingDown, "the service is stopping");

    private readonly object _lock = new(); // Needed for Monitor.Wait.
    private readonly Dictionary<string, Waiting> _clients = new(StringComparer.Ordinal);
    private readonly Queue<Waiting> _turns = new();
    private readonly Queue<Pending> _own = new();
    private readonly Queue<Pending> _last = new();
    private readonly Doubts _doubts;
    private readonly Liveness _liveness;
    private int _count;
    private bool _closing;
    private bool _complete;
    private bool _woken;
    private bool _sleeps;

    /// <param name="doubts">Gets each push that is refused.</param>
    public PendingQueue(Doubts doubts) => (_doubts, _liveness) = (doubts, new(Wake));

    /// <summary>How much is waiting now.</summary>
    public int Count => Volatile.Read(ref _count);

    /// <summary>Whether nothing more is accepted and nothing is left.</summary>
    public bool IsCompleted
    {
        get
        {
            lock (_lock)
            {
                return _complete && _count == 0;
            }
        }
    }

    /// <summary>Queues, or refuses: when the queue is full, asks must not wait to get into it.</summary>
    public Task<AppendOutcome> Add(Pending pending)
    {
        lock (_lock)
        {
            if (Refused(pending) is { } refusal)
            {
                _doubts.Add(pending, refusal);
                _woken = true;
                Rouse();
                return Task.FromResult(AppendOutcome.Of(refusal));
            }

            _count++;
            _closing |= pending.IsLast;
            if (pending.Ask is { } ask)
            {
                var client = Of(ask);
                client.Asks.Enqueue(pending);
                if (client.Asks.Count == 1)
                {
                    _turns.Enqueue(client);
                }
            }
            else
            {
                (pending.IsLast ? _last : _own).Enqueue(pending);
            }

            Rouse();
        }

        return pending.Task;
    }

    /// <summary>Ends when the writer next comes back for its queue.</summary>
    public Task NextTurn() => _liveness.Next();

    /// <summary>Wakes a writer that is waiting; one that has work, or has ended, comes back by itself.</summary>
    public void Wake()
    {
        lock (_lock)
        {
            _woken = true;
            Rouse();
        }
    }

    /// <summary>Takes everything that is queued, each client's asks in their order, and waits for the first of it.</summary>
    /// <param name="batch">Everything is added here.</param>
    /// <param name="wait">How long to wait.</param>
    public void Take(List<Pending> batch, TimeSpan wait)
    {
        var spinner = default(SpinWait);
        while (spinner.Count < Spins && Volatile.Read(ref _count) == 0 && !Volatile.Read(ref _woken))
        {
            spinner.SpinOnce(sleep1Threshold: -1);
        }

        lock (_lock)
        {
            if (_count == 0 && !_woken && !_complete)
            {
                _sleeps = true;
                Monitor.Wait(_lock, wait);
                _sleeps = false;
            }

            _woken = false;
            while (batch.Count < LongestBatch && Next() is { } next)
            {
                batch.Add(next);
                if (next.Ask is RollAsk)
                {
                    break; // What comes after a roll belongs to the next ledger.
                }
            }
        }

        _liveness.Came();
    }

    /// <summary>Accepts nothing more.</summary>
    public void Complete()
    {
        lock (_lock)
        {
            _complete = true;
            Rouse();
        }
    }

    /// <summary>What is left in a queue that accepts nothing more.</summary>
    public IReadOnlyList<Pending> Rest()
    {
        var rest = new List<Pending>();
        lock (_lock)
        {
            while (Next() is { } next)
            {
                rest.Add(next);
            }
        }

        return rest;
    }

    private Refusal? Refused(Pending pending)
    {
        if (_complete || (_closing && pending.Ask is not null))
        {
            return Stopping;
        }

        if (pending.Ask is not { } ask)
        {
            return _own.Count < AskLimits.All ? null : Busy; // A queue full of asks does not keep the service from its own entries.
        }

        return _count >= AskLimits.All ? Busy : Of(ask) is var client && client.Asks.Count < AskLimits.OfOneClient ? null : client.Full;
    }

    private Waiting Of(Ask ask)
    {
        var name = ask.Caller.Client ?? "";
        if (!_clients.TryGetValue(name, out var client))
        {
            _clients[name] = client = new(name);
        }

        return client;
    }

    /// <summary>The next client whose turn it is; null when there is none.</summary>
    private Pending? Next()
    {
        if (_own.TryDequeue(out var next))
        {
            _count--;
            return next;
        }

        if (_turns.TryDequeue(out var client))
        {
            _count--;
            next = client.Asks.Dequeue();
            if (client.Asks.Count > 0)
            {
                _turns.Enqueue(client);
            }

            return next;
        }

        if (_last.TryDequeue(out next))
        {
            _count--;
        }

        return next;
    }

    private void Rouse()
    {
        if (_sleeps)
        {
            Monitor.Pulse(_lock);
        }
    }

    /// <summary>The asks of one client; there are no more of these than clients in the configuration.</summary>
    private sealed class Waiting(string client)
    {
        public Queue<Pending> Asks { get; } = new();

        public Refusal Full { get; } = Refusal.Of(
            Reason.TooBusy, $"client {client} has {AskLimits.OfOneClient} asks waiting, which is the limit for one client");
    }
}

using System.Collections.Concurrent;
using System.Net;
using System.Runtime.CompilerServices;
using System.Threading.RateLimiting;
using Stockseat.Answers.Reasons;
using Stockseat.Ledger.Writing;
using Stockseat.Service.Certificates;

namespace Stockseat.Service.Clients;

/// <summary>Lets clients in up to their limits, and counts who was turned away and why.</summary>
public sealed class Door(DoorLimits limits, ClientTable clients) : IDisposable
{
    /// <summary>How many unknown callers are refused with a reply at once.</summary>
    private const int MostUnknown = 64;

    /// <summary>How many calls of one client may be under way, including streams: each holds memory for as long as its client likes.</summary>
    private const int MostCalls = AskLimits.OfOneClient;

    private readonly Lock _lock = new();
    private readonly Dictionary<Client, int> _inside = new(ReferenceEqualityComparer.Instance);
    private readonly ConcurrentDictionary<Client, RateLimiter> _rates = new(ReferenceEqualityComparer.Instance);
    private readonly ConcurrentDictionary<Client, StrongBox<int>> _calls = new(ReferenceEqualityComparer.Instance);
    private readonly long[] _counts = new long[Enum.GetValues<TurnedAway>().Length + 1];
    private int _all;
    private int _unknown;

    /// <summary>How often each cause occurred since the start; causes that never occurred are left out.</summary>
    public IEnumerable<(TurnedAway Why, long Count)> Counts =>
        Enum.GetValues<TurnedAway>().Select(w => (w, Interlocked.Read(ref _counts[(int)w]))).Where(p => p.Item2 > 0);

    /// <summary>How many connections are open.</summary>
    public int Connections => Volatile.Read(ref _all);

    /// <summary>A new connection.</summary>
    /// <param name="from">Where it comes from.</param>
    /// <param name="proof">What its certificate proved; null: it showed none.</param>
    /// <returns>The visit, to be disposed at its end; or the refusal.</returns>
    public (Visit? Visit, Refusal? Refusal) Enter(IPEndPoint? from, CallerProof? proof = null)
    {
        if (from is null || clients.Find(from.Address, proof) is not { } client)
        {
            Count(TurnedAway.NoClient);
            return (null, ClientTable.Stranger);
        }

        lock (_lock)
        {
            var inside = _inside.GetValueOrDefault(client);
            if (inside >= client.Connections)
            {
                Count(TurnedAway.ClientConnections);
                return (null, Refusal.Of(Reason.TooBusy, $"client {client.Name} has {inside} connections, the most that it may have; close some"));
            }

            if (_all >= limits.Connections)
            {
                Count(TurnedAway.Connections);
                return (null, Refusal.Of(Reason.TooBusy, $"there are {_all} connections, the most that there may be; close some"));
            }

            _all++;
            _inside[client] = inside + 1;
        }

        return (new(client, client.At(new(ClientTable.Plain(from.Address), from.Port), proof), () => Leave(client)), null);
    }

    /// <summary>A connection of an unknown caller, who is refused in its own protocol; null when there are too many of them.</summary>
    internal IDisposable? EnterUnknown()
    {
        if (Interlocked.Increment(ref _unknown) > MostUnknown)
        {
            Interlocked.Decrement(ref _unknown);
            return null;
        }

        return new Leaving(() => Interlocked.Decrement(ref _unknown));
    }

    /// <summary>One more request of a client; the refusal when they come too fast.</summary>
    public Refusal? Ask(Client client)
    {
        if (_rates.GetOrAdd(client, c => Bucket(c.Rate)).AttemptAcquire().IsAcquired)
        {
            return null;
        }

        Count(TurnedAway.Rate);
        return Refusal.Of(
            Reason.TooBusy, $"client {client.Name} sends more than {client.Rate} requests a second; its Rate in the configuration states the limit");
    }

    /// <summary>One more call is under way, until <see cref="End"/>; or the refusal when there are too many.</summary>
    public Refusal? Begin(Client client)
    {
        var calls = _calls.GetOrAdd(client, _ => new());
        if (Interlocked.Increment(ref calls.Value) <= MostCalls)
        {
            return null;
        }

        Interlocked.Decrement(ref calls.Value);
        Count(TurnedAway.TooBusy);
        return Refusal.Of(Reason.TooBusy, $"client {client.Name} has {MostCalls} calls under way, the most that one client may have; end some");
    }

    /// <summary>A call has ended.</summary>
    public void End(Client client) => Interlocked.Decrement(ref _calls[client].Value);

    /// <summary>Counts something that was turned away.</summary>
    public void Count(TurnedAway why) => Interlocked.Increment(ref _counts[(int)why]);

    /// <summary>Counts a refusal that has no entry.</summary>
    public void Count(Reason reason)
    {
        TurnedAway? why = reason switch
        {
            Reason.TooBusy => TurnedAway.TooBusy,
            Reason.LedgerUnavailable => TurnedAway.LedgerUnavailable,
            Reason.ShuttingDown => TurnedAway.ShuttingDown,
            _ => null,
        };
        if (why is { } known)
        {
            Count(known);
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        foreach (var rate in _rates.Values)
        {
            rate.Dispose();
        }
    }

    private static TokenBucketRateLimiter Bucket(int rate) => new(new()
    {
        TokenLimit = rate,
        TokensPerPeriod = rate,
        ReplenishmentPeriod = TimeSpan.FromSeconds(1),
        QueueLimit = 0,
        AutoReplenishment = true,
    });

    private void Leave(Client client)
    {
        lock (_lock)
        {
            _all--;
            _inside[client]--;
        }
    }
}

using Stockseat.Answers.Reasons;

namespace Stockseat.Service.Clients;

/// <summary>Lets a few calls of a kind run at once, and fewer of one client; some wait in the order in which they came, and further ones are refused.</summary>
/// <param name="what">What the calls are, in words, for a refusal.</param>
/// <param name="atOnce">How many run at a time.</param>
/// <param name="ofOne">How many of one client.</param>
/// <param name="waiting">How many wait.</param>
/// <param name="waitingOfOne">How many of one client.</param>
public sealed class CallGate(string what, int atOnce, int ofOne, int waiting, int waitingOfOne)
{
    private readonly Lock _lock = new();
    private readonly List<Client> _inside = [];
    private readonly LinkedList<Waiter> _line = new();

    /// <summary>Waits for its turn.</summary>
    /// <param name="client">Whose call it is.</param>
    /// <param name="token">Ends the wait.</param>
    /// <returns>The pass, to be disposed when the call has ended; or the refusal.</returns>
    public async Task<(IDisposable? Pass, Refusal? Refusal)> Enter(Client client, CancellationToken token)
    {
        token.ThrowIfCancellationRequested();
        Waiter waiter;
        lock (_lock)
        {
            if (HasRoom(client)) // A call that waits has none.
            {
                _inside.Add(client);
                return (new Leaving(() => Leave(client)), null);
            }

            if (_line.Count >= waiting || _line.Count(w => w.Client == client) >= waitingOfOne)
            {
                return (null, Refusal.Of(
                    Reason.TooBusy, $"{_inside.Count} {what} are running and {_line.Count} are waiting; {ofOne} of one client may run and "
                        + $"{waitingOfOne} wait"));
            }

            waiter = new(client);
            _line.AddLast(waiter);
        }

        await using (token.Register(() => GiveUp(waiter, token)))
        {
            await waiter.Turn.Task;
        }

        return (new Leaving(() => Leave(client)), null);
    }

    private bool HasRoom(Client client) => _inside.Count < atOnce && _inside.Count(c => c == client) < ofOne;

    private void GiveUp(Waiter waiter, CancellationToken token)
    {
        lock (_lock)
        {
            if (_line.Remove(waiter))
            {
                waiter.Turn.SetCanceled(token);
            }
        }
    }

    private void Leave(Client client)
    {
        lock (_lock)
        {
            _inside.Remove(client);
            for (var next = _line.First; next is not null; next = next.Next)
            {
                if (HasRoom(next.Value.Client))
                {
                    _inside.Add(next.Value.Client);
                    _line.Remove(next);
                    next.Value.Turn.SetResult();
                    return;
                }
            }
        }
    }

    private sealed class Waiter(Client client)
    {
        public Client Client => client;

        public TaskCompletionSource Turn { get; } = new(TaskCreationOptions.RunContinuationsAsynchronously);
    }
}

using System.Collections.Concurrent;
using Stockseat.Answers.Deciding;
using Stockseat.Answers.Reasons;

namespace Stockseat.Ledger.Writing;

/// <summary>What waits for the writer's thread.</summary>
internal sealed class PendingQueue : IDisposable
{
    private const int LongestBatch = 2048;
    private static readonly Refusal Busy = Refusal.Of(Reason.TooBusy, $"{LedgerWriter.QueueLength} asks are waiting");
    private static readonly Refusal Stopping = Refusal.Of(Reason.ShuttingDown, "the service is stopping");

    private readonly BlockingCollection<Pending> _queue = new(LedgerWriter.QueueLength);
    private readonly Turn _turn = new();

    /// <summary>Whether nothing comes any more and nothing is left.</summary>
    public bool IsCompleted => _queue.IsCompleted;

    /// <summary>Queues, or refuses: a full queue is no place to wait at.</summary>
    public Task<AppendOutcome> Add(Pending pending)
    {
        try
        {
            return _queue.TryAdd(pending) ? pending.Task : Task.FromResult(AppendOutcome.Of(Busy));
        }
        catch (InvalidOperationException)
        {
            return Task.FromResult(AppendOutcome.Of(Stopping));
        }
    }

    /// <summary>Ends when the writer next comes back for what is queued.</summary>
    public Task NextTurn() => _turn.Next(_queue);

    /// <summary>Wakes a writer that waits; one that has work, or ended, comes back by itself.</summary>
    public void Wake()
    {
        try
        {
            _queue.TryAdd(Pending.Nothing());
        }
        catch (InvalidOperationException)
        {
            // It takes nothing more.
        }
    }

    /// <summary>Takes all that queued, and waits for the first of it.</summary>
    /// <param name="batch">Where it goes.</param>
    /// <param name="wait">For how long.</param>
    public void Take(List<Pending> batch, TimeSpan wait)
    {
        if (_queue.TryTake(out var first, wait))
        {
            do
            {
                if (!first.IsNothing)
                {
                    batch.Add(first);
                }
            }
            while (batch.Count < LongestBatch && first.Ask is not RollAsk && _queue.TryTake(out first)); // What follows a roll goes into the next ledger.
        }

        _turn.Came();
    }

    /// <summary>Takes nothing more.</summary>
    public void Complete() => _queue.CompleteAdding();

    /// <summary>What is left of a queue that takes nothing more.</summary>
    public IEnumerable<Pending> Rest() => _queue.GetConsumingEnumerable();

    public void Dispose() => _queue.Dispose();
}

using System.Collections.Concurrent;

namespace Stockseat.Ledger.Writing;

/// <summary>Proves on demand that the writer's thread turns. One that hangs in a write or a decision, or has ended, proves nothing.</summary>
internal sealed class Turn
{
    private TaskCompletionSource? _asked;

    /// <summary>Ends at the next <see cref="Came"/>. Whoever asks before that waits for the same one.</summary>
    /// <param name="queue">What the writer waits at.</param>
    public Task Next(BlockingCollection<Pending> queue)
    {
        var signal = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        var asked = Interlocked.CompareExchange(ref _asked, signal, null) ?? signal;
        try
        {
            // Wakes a writer that waits. Where there is no room it has work, and comes back for more.
            queue.TryAdd(Pending.Nothing());
        }
        catch (InvalidOperationException)
        {
            // It takes nothing more, and comes back for what is there.
        }

        return asked.Task;
    }

    /// <summary>Told by the writer's thread each time it took what was queued.</summary>
    public void Came() => Interlocked.Exchange(ref _asked, null)?.SetResult();
}

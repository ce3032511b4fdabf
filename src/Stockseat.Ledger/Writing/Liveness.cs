namespace Stockseat.Ledger.Writing;

/// <summary>Proves on demand that the writer's thread is running. A thread that hangs in a write or a decision, or has ended, gives no proof.</summary>
/// <param name="wake">Wakes a writer that waits.</param>
internal sealed class Liveness(Action wake)
{
    private TaskCompletionSource? _asked;

    /// <summary>Ends at the next <see cref="Came"/>. Several callers before that wait for the same one.</summary>
    public Task Next()
    {
        var signal = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        var asked = Interlocked.CompareExchange(ref _asked, signal, null) ?? signal;
        wake();
        return asked.Task;
    }

    /// <summary>Called by the writer's thread each time it has taken its queue.</summary>
    public void Came() => Interlocked.Exchange(ref _asked, null)?.SetResult();
}

namespace Stockseat.Ledger.Writing;

/// <summary>Proves on demand that the writer's thread turns. One that hangs in a write or a decision, or has ended, proves nothing.</summary>
/// <param name="wake">Wakes a writer that waits.</param>
internal sealed class Liveness(Action wake)
{
    private TaskCompletionSource? _asked;

    /// <summary>Ends at the next <see cref="Came"/>. Whoever asks before that waits for the same one.</summary>
    public Task Next()
    {
        var signal = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        var asked = Interlocked.CompareExchange(ref _asked, signal, null) ?? signal;
        wake();
        return asked.Task;
    }

    /// <summary>Told by the writer's thread each time it took what was queued.</summary>
    public void Came() => Interlocked.Exchange(ref _asked, null)?.SetResult();
}

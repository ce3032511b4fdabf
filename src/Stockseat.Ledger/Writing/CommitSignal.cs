namespace Stockseat.Ledger.Writing;

/// <summary>Signals that something was committed. Whoever waits continues on another thread: the writer waits for nobody.</summary>
internal sealed class CommitSignal
{
    private volatile TaskCompletionSource _next = New();

    /// <summary>A task that ends at the next commit after it was taken.</summary>
    public Task Next => _next.Task;

    /// <summary>Called by the writer's thread after each commit.</summary>
    public void Came() => Interlocked.Exchange(ref _next, New()).SetResult();

    private static TaskCompletionSource New() => new(TaskCreationOptions.RunContinuationsAsynchronously);
}

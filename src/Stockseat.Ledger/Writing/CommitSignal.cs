namespace Stockseat.Ledger.Writing;

/// <summary>Tells that something was committed. Whoever waits goes on elsewhere: the writer waits for nobody.</summary>
internal sealed class CommitSignal
{
    private volatile TaskCompletionSource _next = New();

    /// <summary>Ends at the next commit after it was taken.</summary>
    public Task Next => _next.Task;

    /// <summary>Told by the writer's thread after each commit.</summary>
    public void Came() => Interlocked.Exchange(ref _next, New()).SetResult();

    private static TaskCompletionSource New() => new(TaskCreationOptions.RunContinuationsAsynchronously);
}

namespace Stockseat.Service.Clients;

/// <summary>A place that was taken, and is given back only once.</summary>
internal sealed class Leaving(Action leave) : IDisposable
{
    private Action? _leave = leave;

    public void Dispose() => Interlocked.Exchange(ref _leave, null)?.Invoke();
}

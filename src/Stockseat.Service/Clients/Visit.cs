namespace Stockseat.Service.Clients;

/// <summary>A connection that was let in, until it is disposed.</summary>
public sealed class Visit(Client client, Action leave) : IDisposable
{
    private Action? _leave = leave;

    /// <summary>Whose it is.</summary>
    public Client Client => client;

    /// <inheritdoc/>
    public void Dispose() => Interlocked.Exchange(ref _leave, null)?.Invoke();
}

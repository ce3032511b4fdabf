using Stockseat.Answers.Asking;

namespace Stockseat.Service.Clients;

/// <summary>A connection that was let in, until it is disposed; it belongs to the same client as long as it is open.</summary>
/// <param name="client">The client of the connection.</param>
/// <param name="caller">The caller, which has sent no tag and no request id yet.</param>
/// <param name="leave">Called once, when it ends.</param>
public sealed class Visit(Client client, Caller caller, Action leave) : IDisposable
{
    private Action? _leave = leave;

    /// <summary>The client of the connection.</summary>
    public Client Client => client;

    /// <summary>The caller, which has sent no tag and no request id yet.</summary>
    public Caller Caller => caller;

    /// <inheritdoc/>
    public void Dispose() => Interlocked.Exchange(ref _leave, null)?.Invoke();
}

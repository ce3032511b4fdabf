using Stockseat.Answers.Asking;

namespace Stockseat.Service.Clients;

/// <summary>A connection that was let in, until it is disposed: whose it is stays the same as long as it is open.</summary>
/// <param name="client">Whose it is.</param>
/// <param name="caller">The caller that it is, which has sent no tag and no request id yet.</param>
/// <param name="leave">Told once of its end.</param>
public sealed class Visit(Client client, Caller caller, Action leave) : IDisposable
{
    private Action? _leave = leave;

    /// <summary>Whose it is.</summary>
    public Client Client => client;

    /// <summary>The caller that it is, which has sent no tag and no request id yet.</summary>
    public Caller Caller => caller;

    /// <inheritdoc/>
    public void Dispose() => Interlocked.Exchange(ref _leave, null)?.Invoke();
}

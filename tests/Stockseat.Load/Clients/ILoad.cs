namespace Stockseat.Load.Clients;

/// <summary>Clients that ask again as soon as they are answered.</summary>
internal interface ILoad : IAsyncDisposable
{
    /// <summary>The number of clients.</summary>
    int Clients { get; }

    /// <summary>One ask of one client, and its answer.</summary>
    ValueTask Ask(int client, CancellationToken token);
}

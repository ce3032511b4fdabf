namespace Stockseat.Load.Clients;

/// <summary>Clients that ask as fast as they are answered.</summary>
internal interface ILoad : IAsyncDisposable
{
    /// <summary>Asks for a while.</summary>
    /// <returns>Answers a second; only those that came within the time count.</returns>
    Task<double> Run(TimeSpan span, CancellationToken token);
}

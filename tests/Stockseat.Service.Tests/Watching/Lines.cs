using System.Collections.Concurrent;
using Microsoft.Extensions.Logging;
using Stockseat.Service.Watching;

namespace Stockseat.Service.Tests.Watching;

/// <summary>A log that keeps its lines.</summary>
internal sealed class Lines : ILogger<FixtureWatch>
{
    private readonly ConcurrentQueue<string> _lines = new();

    public IReadOnlyCollection<string> All => _lines;

    public IDisposable? BeginScope<TState>(TState state)
        where TState : notnull => null;

    public bool IsEnabled(LogLevel logLevel) => true;

    public void Log<TState>(LogLevel logLevel, EventId eventId, TState state, Exception? exception, Func<TState, Exception?, string> formatter) =>
        _lines.Enqueue($"{formatter(state, exception)} {exception?.Message}".Trim());
}

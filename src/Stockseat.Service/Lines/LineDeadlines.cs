using System.Collections.Concurrent;

namespace Stockseat.Service.Lines;

/// <summary>One timer for all line connections: it checks every half second whether a deadline has passed.</summary>
internal sealed class LineDeadlines : IDisposable
{
    private static readonly TimeSpan Period = TimeSpan.FromMilliseconds(500);

    private readonly ConcurrentDictionary<LineConnection, bool> _lines = new();
    private readonly ITimer _timer;

    public LineDeadlines(TimeProvider time) => _timer = time.CreateTimer(_ => Look(), null, Period, Period);

    /// <summary>Watches a connection until the returned object is disposed.</summary>
    public IDisposable Watch(LineConnection line)
    {
        _lines[line] = true;
        return new Watched(() => _lines.TryRemove(line, out _));
    }

    public void Dispose() => _timer.Dispose();

    private void Look()
    {
        foreach (var (line, _) in _lines)
        {
            line.Look();
        }
    }

    private sealed class Watched(Action end) : IDisposable
    {
        public void Dispose() => end();
    }
}

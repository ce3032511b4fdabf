using Serilog.Sinks.Async;

namespace Stockseat.Service.Logging;

/// <summary>How many lines of the log were dropped since the start, since nobody took those before them.</summary>
public sealed class LogDrops : IAsyncLogEventSinkMonitor
{
    private readonly Lock _lock = new();
    private readonly List<IAsyncLogEventSinkInspector> _sinks = [];

    /// <summary>In all.</summary>
    public long Count
    {
        get
        {
            lock (_lock)
            {
                return _sinks.Sum(s => s.DroppedMessagesCount);
            }
        }
    }

    /// <inheritdoc/>
    public void StartMonitoring(IAsyncLogEventSinkInspector inspector)
    {
        lock (_lock)
        {
            _sinks.Add(inspector);
        }
    }

    /// <inheritdoc/>
    public void StopMonitoring(IAsyncLogEventSinkInspector inspector)
    {
        // What it dropped stays counted.
    }
}

using Serilog.Sinks.Async;

namespace Stockseat.Service.Logging;

/// <summary>How many log lines were dropped since the start, because nothing read the log fast enough.</summary>
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
        // The lines that it dropped stay counted.
    }
}

using Serilog;
using Serilog.Configuration;
using Serilog.Core;
using Serilog.Events;
using Stockseat.Service.Answering;
using Stockseat.Service.Logging;

namespace Stockseat.Service.Hosting;

/// <summary>
/// The service's log. A thread of its own writes it, so that logging never delays the ledger's writer, an ask or a stop. While nobody reads the log, a limited
/// number of lines is held; further ones are dropped, counted, and reported in the log as soon as it is read again.
/// </summary>
public sealed class ServiceLog : IAsyncDisposable
{
    /// <summary>How many lines are held unless stated: a few MB at most.</summary>
    public const int UsualHeld = 1024;

    private readonly Logger _logger;
    private readonly TimeProvider _time;

    /// <summary>A log; messages of the platform only from warnings on.</summary>
    /// <param name="time">The clock.</param>
    /// <param name="to">Where its lines go; null: only where the system wants events.</param>
    /// <param name="held">How many lines are held.</param>
    public ServiceLog(TimeProvider time, Action<LoggerSinkConfiguration>? to, int held = UsualHeld)
    {
        _time = time;
        var configuration = new LoggerConfiguration()
            .MinimumLevel.Information()
            .MinimumLevel.Override("Microsoft", LogEventLevel.Warning)
            .MinimumLevel.Override("Grpc", LogEventLevel.Warning);
        if (to is not null)
        {
            var teller = LoggerSinkConfiguration.Wrap(inner => new DropTeller(inner, () => Drops.Count), to);
            configuration.WriteTo.Async(sinks => sinks.Sink(teller), held, blockWhenFull: false, Drops);
        }

        _logger = configuration.WithWindowsEvents(held, Drops).CreateLogger();
    }

    /// <summary>What was dropped.</summary>
    public LogDrops Drops { get; } = new();

    /// <summary>Where to log.</summary>
    public ILogger Logger => _logger;

    /// <summary>Writes the last lines, for as long as a stop may wait for that.</summary>
    public async ValueTask DisposeAsync()
    {
        // The end of the process does not wait for this thread, since nobody may ever read the last line.
        var closing = Task.Factory.StartNew(_logger.Dispose, CancellationToken.None, TaskCreationOptions.LongRunning, TaskScheduler.Default);
        await Task.WhenAny(closing, Task.Delay(StopLimits.Log, _time));
    }
}

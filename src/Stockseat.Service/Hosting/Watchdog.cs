using System.Globalization;
using System.Net.Sockets;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Hosting.Systemd;
using Microsoft.Extensions.Logging;

namespace Stockseat.Service.Hosting;

/// <summary>
/// Tells the supervisor twice in each of its intervals that the service is alive, each time after the ledger's writer has proven that it
/// runs. A writer that hangs proves nothing, and the supervisor starts the service again. A writer that can't write at present still
/// runs: a restart would not help against a full disk.
/// </summary>
public sealed class Watchdog(Func<Task> proof, ISystemdNotifier supervisor, TimeSpan interval, TimeProvider time, ILogger<Watchdog> logger)
    : IHostedService, IDisposable
{
    private static readonly ServiceState Alive = new("WATCHDOG=1");
    private static readonly TimeSpan Shortest = TimeSpan.FromMilliseconds(2);
    private static readonly TimeSpan Longest = TimeSpan.FromDays(1);

    private ITimer? _timer;
    private Task _told = Task.CompletedTask;

    /// <summary>How long the supervisor waits; null when it does not, or waits for another process.</summary>
    /// <param name="microseconds">WATCHDOG_USEC.</param>
    /// <param name="process">WATCHDOG_PID: whom it is meant for; it may be absent.</param>
    public static TimeSpan? Interval(string? microseconds, string? process)
    {
        if (!ulong.TryParse(microseconds, NumberStyles.None, CultureInfo.InvariantCulture, out var asked) || asked == 0)
        {
            return null;
        }

        if (process is not (null or "") && process != Environment.ProcessId.ToString(CultureInfo.InvariantCulture))
        {
            return null;
        }

        var limit = (ulong)Longest.TotalMicroseconds;
        return TimeSpan.FromMicroseconds((long)Math.Clamp(asked, (ulong)Shortest.TotalMicroseconds, limit));
    }

    /// <inheritdoc/>
    public Task StartAsync(CancellationToken cancellationToken)
    {
        _timer = time.CreateTimer(_ => Look(), null, interval / 2, interval / 2);
        return Task.CompletedTask;
    }

    /// <inheritdoc/>
    public Task StopAsync(CancellationToken cancellationToken)
    {
        _timer?.Dispose();
        return Task.CompletedTask;
    }

    /// <inheritdoc/>
    public void Dispose() => _timer?.Dispose();

    /// <summary>Asks for a proof, unless the one before is still awaited.</summary>
    private void Look()
    {
        if (_told.IsCompleted)
        {
            _told = Tell();
        }
    }

    private async Task Tell()
    {
        await proof().ConfigureAwait(false);
        try
        {
            supervisor.Notify(Alive);
        }
        catch (SocketException e)
        {
            Log.WatchdogUnheard(logger, e.Message);
        }
    }
}

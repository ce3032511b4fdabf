using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using Stockseat.Ledger.Writing;
using Stockseat.Plant.Connecting;
using Stockseat.Plant.Forwarding;
using Stockseat.Service.Health;
using Stockseat.Service.Ledgers;

namespace Stockseat.Service.Forwarding;

/// <summary>Runs the forwarder to the plant store beside the service, and tells the log and the health service how it goes.</summary>
internal sealed class PlantForwarding : BackgroundService, IForwardingNews
{
    /// <summary>After a failure that nobody foresaw.</summary>
    private static readonly TimeSpan AfterFailure = TimeSpan.FromSeconds(30);

    private readonly Forwarder _forwarder;
    private readonly LedgerWriter _writer;
    private readonly ServiceHealth _health;
    private readonly TimeProvider _time;
    private readonly ILogger<PlantForwarding> _logger;
    private bool _even;

    public PlantForwarding(
        PlantAddress address, LedgerSettings ledger, LedgerWriter writer, ServiceHealth health, TimeProvider time, ILogger<PlantForwarding> logger)
    {
        (_writer, _health, _time, _logger) = (writer, health, time, logger);
        _forwarder = new(address, ledger.Data, writer, time, this);
    }

    /// <summary>How it goes now.</summary>
    public ForwardingState State => _forwarder.State;

    /// <summary>Why the store has something else than the ledgers here, in words without a stop at the end; null: it does not, as far as is known.</summary>
    public string? Fault => State.Faults is [var first, ..] ? first.TrimEnd('.') : null;

    /// <summary>How many entries wait to be sent, and for how long; no time when nothing was complete since the start.</summary>
    public (long Entries, TimeSpan? Time) Lag
    {
        get
        {
            var state = State; // Read before the newest serial, so that this is never negative.
            var missing = Math.Max(0, _writer.Serial - state.Stored);
            return (missing, missing == 0 ? TimeSpan.Zero : _time.GetUtcNow() - state.Even);
        }
    }

    void IForwardingNews.Reached(string store) => Tell(() => Log.Reached(_logger, store));

    void IForwardingNews.Lost(string cause)
    {
        _even = false;
        Tell(() => Log.Lost(_logger, cause));
    }

    void IForwardingNews.CaughtUp(long serial)
    {
        _even = true;
        Tell(() => Log.CaughtUp(_logger, serial));
    }

    void IForwardingNews.Stopped(string fault) => Tell(() => Log.Stopped(_logger, fault));

    void IForwardingNews.GoesOn() => Tell(() => Log.GoesOn(_logger));

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        _health.Plant(false);
        while (!stoppingToken.IsCancellationRequested)
        {
            try
            {
                await _forwarder.Run(stoppingToken);
            }
            catch (Exception e) when (e is not OperationCanceledException)
            {
                Log.Failed(_logger, e); // A fault here must not end the service.
                await Task.Delay(AfterFailure, _time, stoppingToken);
            }
        }
    }

    public override async Task StopAsync(CancellationToken cancellationToken)
    {
        await base.StopAsync(cancellationToken);
        await _forwarder.DisposeAsync();
    }

    private void Tell(Action log)
    {
        log();
        _health.Plant(_even && State is { Connected: true, Faults.Count: 0 });
    }
}

using System.Net;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using Stockseat.Service.Answering;

namespace Stockseat.Service.Gauges;

/// <summary>All reading ports. Kestrel runs those that listen; this class runs those that connect.</summary>
public sealed class ReadingPorts : IHostedService, IDisposable
{
    private readonly CancellationTokenSource _stop;
    private readonly List<ReadingPort> _ports = [];
    private readonly List<OutgoingPort> _outgoing = [];
    private Task _running = Task.CompletedTask;

    /// <summary>The ports of the configuration, in its order.</summary>
    public ReadingPorts(
        IReadOnlyList<ReadingPortSettings> settings, IAnswerer answerer, TimeProvider time, IHostApplicationLifetime lifetime, ILogger<ReadingPorts> logger)
    {
        _stop = CancellationTokenSource.CreateLinkedTokenSource(lifetime.ApplicationStopping);
        foreach (var port in settings.Select(s => new ReadingPort(s, answerer, time, logger, _stop.Token)))
        {
            _ports.Add(port);
            if (port.Configured.Listen is null)
            {
                _outgoing.Add(new(port, null, time, logger));
            }
            else
            {
                Listening.Add(new(port, logger));
            }
        }
    }

    /// <summary>The visible state of each.</summary>
    public IEnumerable<PortStatus> Statuses => _ports.Select(p => p.Book.Status);

    /// <summary>Those that the gauge connects to.</summary>
    internal List<ListeningPort> Listening { get; } = [];

    /// <summary>Where they really listen, by name.</summary>
    internal Dictionary<string, IPEndPoint> Bound(IEnumerable<IPEndPoint> endpoints)
    {
        var bound = Listening.Zip(endpoints).ToDictionary(p => p.First.Port.Configured.Name, p => p.Second);
        Listening.ForEach(p => p.Port.Book.Bound(bound[p.Port.Configured.Name].ToString()));
        return bound;
    }

    /// <inheritdoc/>
    public Task StartAsync(CancellationToken cancellationToken)
    {
        _running = Task.WhenAll(_outgoing.Select(p => Task.Run(() => p.Run(_stop.Token), CancellationToken.None)));
        return Task.CompletedTask;
    }

    /// <summary>Ends all connections and finishes the pushes under way, both within the time that the host allows.</summary>
    public async Task StopAsync(CancellationToken cancellationToken)
    {
        await _stop.CancelAsync();
        await Task.WhenAll(_ports.Select(p => p.Idle).Append(_running)).WaitAsync(cancellationToken).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
    }

    /// <inheritdoc/>
    public void Dispose() => _stop.Dispose();
}

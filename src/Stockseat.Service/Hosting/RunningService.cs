using System.Net;
using System.Net.Sockets;
using Grpc.HealthCheck;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Hosting.Systemd;
using Microsoft.Extensions.Logging;
using Stockseat.Ledger.Seals;
using Stockseat.Ledger.Writing;
using Stockseat.Service.Answering;
using Stockseat.Service.Certificates;
using Stockseat.Service.Configuration;
using Stockseat.Service.Gauges;
using Stockseat.Service.Health;
using Stockseat.Service.Ledgers;
using Stockseat.Service.Logging;
using Stockseat.Service.Watching;

namespace Stockseat.Service.Hosting;

/// <summary>The service from its first lock to its last entry. A start opens the ledger first, then the listeners; a stop does it in reverse.</summary>
public sealed class RunningService : IAsyncDisposable
{
    private readonly LedgerWriter _writer;
    private readonly SealKey? _key;
    private readonly WebApplication _app;
    private readonly TimeProvider _time;
    private readonly ILogger _logger;
    private readonly Starting _starting;
    private bool _stopped;

    private RunningService(Settings settings, LedgerWriter writer, SealKey? key, WebApplication app, TimeProvider time)
    {
        (_writer, _key, _app, _time) = (writer, key, app, time);
        _logger = app.Services.GetRequiredService<ILoggerFactory>().CreateLogger<RunningService>();
        _starting = new(writer, settings, app.Services.GetRequiredService<BoundedFolders>(), time, _logger);
    }

    /// <summary>Where gRPC listens.</summary>
    public IPEndPoint Grpc { get; private set; } = new(IPAddress.Loopback, 0);

    /// <summary>Where the line protocol listens.</summary>
    public IPEndPoint Line { get; private set; } = new(IPAddress.Loopback, 0);

    /// <summary>Where the line protocol listens for TLS; null: nowhere.</summary>
    public IPEndPoint? LineTls { get; private set; }

    /// <summary>Where the pages are; null: nowhere.</summary>
    public IPEndPoint? Page { get; private set; }

    /// <summary>Where reading ports listen, by name.</summary>
    public IReadOnlyDictionary<string, IPEndPoint> ReadingPorts { get; private set; } = new Dictionary<string, IPEndPoint>();

    /// <summary>
    /// Ends with true when the service can log and answer, and with false when it ended before that. It fails when the start can never be written.
    /// </summary>
    public Task<bool> Answers { get; private set; } = Task.FromResult(false);

    /// <summary>
    /// Starts. When it returns, the service listens, and answers, unless the disk is full or fails; then it keeps trying (<see cref="Answers"/>).
    /// </summary>
    /// <param name="settings">The merged settings.</param>
    /// <param name="time">The clock.</param>
    /// <param name="logger">The log; it is not disposed. Logging must never wait.</param>
    /// <param name="drops">Counts dropped log lines; null: none is ever dropped.</param>
    /// <param name="folders">The fixtures' folders; null: those on the disk.</param>
    /// <exception cref="ConfigurationException">The key can't be used, or too few files may be open; nothing was begun.</exception>
    public static async Task<RunningService> Start(
        Settings settings, TimeProvider time, Serilog.ILogger logger, LogDrops? drops = null, IFolders? folders = null)
    {
        var (stated, limit) = (settings.Limits.Connections, OpenFiles.Limit());
        var budget = ConnectionBudget.Of(stated, settings.ReadingPorts.Count, OpenFiles.Now(), limit);
        settings = settings with { Limits = settings.Limits with { Connections = budget.Admitted } };
        var tls = Tls(settings, time);
        var key = Key(settings);
        LedgerWriter? writer = null;
        RunningService? service = null;
        try
        {
            var seals = key is null ? null : new SealPolicy(key, settings.Ledger.SealEvery, settings.Ledger.SealAfter);
            writer = LedgerWriter.Open(
                settings.Ledger.Data, time, seals, settings.Ledger.RollAt, settings.Ledger.SnapshotEvery, forService: true);
            var app = ServiceHost.Build(settings, writer, folders ?? new FoldersOnDisk(settings.Fixtures.Folder), tls, budget, time, logger, drops ?? new());
            service = new(settings, writer, key, app, time);
            if (budget.Admitted < stated)
            {
                Log.FewerConnections(service._logger, limit, budget.Admitted, stated, budget.Needed);
            }

            await service.Begin(settings);
            return service;
        }
        catch
        {
            if (service is not null)
            {
                if (service._starting.IsRecorded)
                {
                    await writer!.AppendLast(_ => ServiceEntries.AtStop());
                }

                await service._app.DisposeAsync();
            }

            writer?.Dispose();
            key?.Dispose();
            throw;
        }
    }

    /// <summary>Runs until a signal or a failure ends it.</summary>
    /// <returns>The exit code: 0 stopped, 2 fatal.</returns>
    public async Task<int> WaitAndStop()
    {
        var stopping = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        await using var signal = _app.Lifetime.ApplicationStopping.Register(stopping.SetResult);
        var ended = await Task.WhenAny(stopping.Task, _writer.Ended);
        if (ended == _writer.Ended && await _writer.Ended is { } fatal)
        {
            Log.WriterEnded(_logger, fatal);
        }

        return await Stop();
    }

    /// <summary>Stops: takes no new request, finishes the running ones, writes the last entry, closes the ledger.</summary>
    /// <returns>The exit code: 0 stopped cleanly, 2 when the stop could not be written to the ledger.</returns>
    public async Task<int> Stop()
    {
        if (_stopped)
        {
            return 0;
        }

        _stopped = true;
        var health = _app.Services.GetRequiredService<ServiceHealth>();
        health.Stopping();
        await _app.StopAsync(CancellationToken.None);
        await ((Task)Answers).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        var last = WriteLast();
        var closed = await Task.WhenAny(last, Task.Delay(StopLimits.LastEntry, _time)) == last;
        var good = closed && await last;
        if (good)
        {
            Log.Stopped(_logger);
        }
        else
        {
            Log.StopNotRecorded(_logger);
        }

        await _app.DisposeAsync();
        if (closed)
        {
            // A writer that hangs is left until the process ends, and so is the folder's lock: it may still be using the ledger.
            _writer.Dispose();
            _key?.Dispose();
        }

        return good ? 0 : 2;
    }

    /// <summary>Writes the last entry and closes the ledger.</summary>
    private async Task<bool> WriteLast()
    {
        var written = await _writer.AppendLast(_ => ServiceEntries.AtStop());
        return await _writer.Stop() is null && written.Refusal is null;
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync() => await Stop();

    private async Task Begin(Settings settings)
    {
        var health = _app.Services.GetRequiredService<ServiceHealth>();
        _writer.DecisionFailed += e => Log.DecisionFailed(_logger, e);
        _writer.RollPutOff += cause => Log.RollPutOff(_logger, cause);
        _writer.WritableChanged += (writable, cause) =>
        {
            health.Writable(() => _writer.Writable);
            if (writable)
            {
                Log.LedgerBack(_logger);
            }
            else
            {
                Log.LedgerLost(_logger, cause);
            }
        };
        _writer.FixturesChanged += () => ThreadPool.UnsafeQueueUserWorkItem(_ => health.Fixtures(() => _writer.Situation), null);
        if (_writer.NotOpened is { } cause)
        {
            Log.LedgerLost(_logger, cause);
        }

        var answers = await _starting.Try(CancellationToken.None);
        if (!answers && _writer.Ended is { IsCompleted: true } ended && await ended is { } fatal)
        {
            throw new IOException($"the ledger in {settings.Ledger.Data} can't be written: {fatal.Message}", fatal);
        }

        try
        {
            await _app.StartAsync();
        }
        catch (IOException e)
        {
            throw new IOException($"Listen:Grpc ({settings.Grpc}) or Listen:Line ({settings.Line}){Ports(settings)} can't be used: "
                + $"{e.Message.TrimEnd('.')}; stop the other program, or take another port (0 takes a free one)", e);
        }

        var bound = _app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses
            .Select(a => new Uri(a)).Select(u => new IPEndPoint(IPAddress.Parse(u.Host.Trim('[', ']')), u.Port)).ToList();
        (Grpc, Line) = (bound[0], bound[1]);
        var others = bound.Skip(2);
        (LineTls, others) = settings.LineTls is null ? (null, others) : (others.First(), others.Skip(1));
        (Page, others) = settings.Page is null ? (null, others) : (others.First(), others.Skip(1));
        ReadingPorts = _app.Services.GetRequiredService<ReadingPorts>().Bound(others);
        health.Writable(() => _writer.Writable);
        health.Fixtures(() => _writer.Situation);
        if (!answers)
        {
            Log.Waiting(_logger, Grpc.ToString(), Line.ToString(), Pages, settings.Ledger.Data);
            TellSupervisor("STATUS=Every ask is refused: the ledger can't be written. It is tried again.");
        }

        Answers = Serve(settings, answers);
    }

    private async Task<bool> Serve(Settings settings, bool answers)
    {
        if (!answers)
        {
            if (!await _starting.GoOn(_app.Lifetime.ApplicationStopping))
            {
                return false;
            }

            TellSupervisor("STATUS=Serving");
        }

        SealNews.Tell(_logger, settings.Ledger, _key?.Public.Fingerprint, _writer.FoundSeal);
        Log.Serving(_logger, Grpc.ToString(), Line.ToString(), Pages, settings.Ledger.Data, _writer.Serial);
        return true;
    }

    /// <summary>It is ready as soon as it listens: otherwise a supervisor would end it, and a restart does not help against a full disk.</summary>
    private void TellSupervisor(string state)
    {
        try
        {
            _app.Services.GetService<ISystemdNotifier>()?.Notify(new(state));
        }
        catch (SocketException e)
        {
            Log.WatchdogUnheard(_logger, e.Message);
        }
    }

    private static SealKey? Key(Settings settings)
    {
        try
        {
            return settings.Ledger.SealKey is { } path ? SealKey.Load(path, settings.Ledger.Data) : null;
        }
        catch (InvalidDataException e)
        {
            throw new ConfigurationException($"Ledger:SealKey: {e.Message}");
        }
    }

    private static ServiceTls? Tls(Settings settings, TimeProvider time)
    {
        try
        {
            return settings.Tls is { } files ? new(files, time) : null;
        }
        catch (InvalidDataException e)
        {
            throw new ConfigurationException(e.Message);
        }
    }

    private string Pages => Page?.ToString() ?? "no port";

    private static string Ports(Settings settings) =>
        (settings.LineTls is { } lines ? $" or Listen:LineTls ({lines})" : "") + (settings.Page is { } page ? $" or Listen:Page ({page})" : "")
        + string.Concat(settings.ReadingPorts.Where(p => p.Listen is not null).Select(p => $" or reading port {p.Name} ({p.Listen})"));
}

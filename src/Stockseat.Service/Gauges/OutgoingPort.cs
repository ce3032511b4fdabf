using System.IO.Pipelines;
using System.Net;
using System.Net.Sockets;
using Microsoft.Extensions.Logging;
using Polly;
using Polly.Retry;
using Stockseat.Answers.Entries;
using Stockseat.Service.Answering;
using Stockseat.Service.Clients;
using Stockseat.Service.Logging;

namespace Stockseat.Service.Gauges;

/// <summary>A port that connects to the gauge, and again whenever the connection is lost, for as long as the service runs.</summary>
public sealed class OutgoingPort
{
    /// <summary>The time limit for making a connection.</summary>
    public static readonly TimeSpan LongestConnect = TimeSpan.FromSeconds(5);

    /// <summary>A connection that is lost sooner than this counts as a failed attempt, so the next attempt waits.</summary>
    public static readonly TimeSpan Steady = TimeSpan.FromSeconds(10);

    private readonly ReadingPort _port;
    private readonly Func<CancellationToken, Task<Stream>> _connect;
    private readonly TimeProvider _time;
    private readonly ILogger _logger;
    private readonly LogSampler _sampler;
    private readonly ResiliencePipeline _pipeline;
    private long _attempts;

    /// <summary>A port.</summary>
    /// <param name="port">What takes the lines.</param>
    /// <param name="connect">Makes a connection; null: to the address in the configuration.</param>
    /// <param name="time">The clock.</param>
    /// <param name="logger">The log, which says when the gauge is gone.</param>
    public OutgoingPort(ReadingPort port, Func<CancellationToken, Task<Stream>>? connect, TimeProvider time, ILogger logger)
    {
        (_port, _time, _logger) = (port, time, logger);
        _connect = connect ?? (stop => Connect(port.Configured.Connect!, time, stop));
        _sampler = new(time, TimeSpan.FromMinutes(1));
        _pipeline = new ResiliencePipelineBuilder { TimeProvider = time }
            .AddRetry(new RetryStrategyOptions
            {
                MaxRetryAttempts = int.MaxValue,
                ShouldHandle = args => new(args.Outcome.Exception is not null && !args.Context.CancellationToken.IsCancellationRequested),
                DelayGenerator = args => new(Backoff.Before(args.AttemptNumber, Random.Shared.NextDouble())),
            })
            .Build();
    }

    /// <summary>Runs until it is stopped.</summary>
    public async Task Run(CancellationToken stop)
    {
        try
        {
            while (!stop.IsCancellationRequested)
            {
                await _pipeline.ExecuteAsync(Once, stop);
            }
        }
        catch (OperationCanceledException) when (stop.IsCancellationRequested)
        {
            // The stop was asked for.
        }
    }

    /// <summary>One connection from beginning to end; an exception when there was none, or when it was short.</summary>
    private async ValueTask Once(CancellationToken stop)
    {
        Exception? lost = null;
        long? connected = null;
        try
        {
            await using var stream = await _connect(stop);
            connected = _time.GetTimestamp();
            _port.Book.Becomes(PortState.Connected);
            Log.Connected(_logger, _port.Configured.Name, _port.Configured.Endpoint, _attempts);
            _attempts = 0;
            await Read(stream, stop);
        }
        catch (Exception e) when (!stop.IsCancellationRequested)
        {
            lost = e;
        }

        stop.ThrowIfCancellationRequested();
        lost ??= new IOException("the gauge closed the connection");
        Lost(lost.Message.TrimEnd('.'));
        if (connected is not { } since || _time.GetElapsedTime(since) < Steady)
        {
            throw lost;
        }
    }

    private async Task Read(Stream stream, CancellationToken stop)
    {
        var input = PipeReader.Create(stream);
        try
        {
            await _port.Read(input, _port.Configured.Endpoint, spoke: null, stop);
        }
        finally
        {
            await input.CompleteAsync();
        }
    }

    private void Lost(string cause)
    {
        _attempts++;
        _port.Book.Becomes(PortState.Connecting);
        _port.Book.Count(PortCause.NoConnection, cause);
        if (_sampler.Take() is { } passedOver)
        {
            var since = EntryTime.Text(_port.Book.Status.Since);
            Log.NoConnection(_logger, _port.Configured.Name, _port.Configured.Endpoint, since, cause, _attempts, passedOver);
        }
    }

    private static async Task<Stream> Connect(DnsEndPoint to, TimeProvider time, CancellationToken stop)
    {
        using var limit = new CancellationTokenSource(LongestConnect, time);
        using var either = CancellationTokenSource.CreateLinkedTokenSource(limit.Token, stop);
        var socket = new Socket(SocketType.Stream, ProtocolType.Tcp);
        try
        {
            await socket.ConnectAsync(to.Host, to.Port, either.Token);
            KeepAlive.Switch(socket);
            return new NetworkStream(socket, ownsSocket: true);
        }
        catch (OperationCanceledException) when (!stop.IsCancellationRequested)
        {
            socket.Dispose();
            throw new TimeoutException($"no connection was made within {LongestConnect.TotalSeconds} s");
        }
        catch
        {
            socket.Dispose();
            throw;
        }
    }
}

using System.IO.Pipelines;
using Microsoft.AspNetCore.Connections;
using Microsoft.Extensions.Logging;
using Stockseat.Answers.Reasons;
using Stockseat.Service.Answering;
using Stockseat.Service.Logging;

namespace Stockseat.Service.Gauges;

/// <summary>Turns what a gauge sends into readings, and readings into measurements. It does not matter here how the connection is made.</summary>
public sealed class ReadingPort
{
    /// <summary>How many lines a second are examined: more than any hand-held gauge sends.</summary>
    public const int LinesPerSecond = 20;

    /// <summary>How long no line is examined after one whose matching took too long.</summary>
    public static readonly TimeSpan Pause = TimeSpan.FromSeconds(1);

    private readonly Lock _lock = new();
    private readonly Collector _collector;
    private readonly BurstGuard _guard;
    private readonly LineBudget _budget;
    private readonly LogSampler _sampler;
    private readonly TimeProvider _time;
    private readonly ILogger _logger;
    private long? _timedOut;

    /// <summary>A port.</summary>
    /// <param name="settings">What is configured.</param>
    /// <param name="answerer">Takes the pushes.</param>
    /// <param name="time">The clock.</param>
    /// <param name="logger">Where logs go.</param>
    /// <param name="stop">From then on nothing is tried again.</param>
    public ReadingPort(ReadingPortSettings settings, IAnswerer answerer, TimeProvider time, ILogger logger, CancellationToken stop)
    {
        (Configured, Book, _time, _logger) = (settings, new(settings, time), time, logger);
        _collector = new(settings, answerer, Book, time, logger, stop);
        _guard = new(settings, Book, _collector, time, stop);
        _budget = new(time, LinesPerSecond);
        _sampler = new(time, TimeSpan.FromMinutes(1));
    }

    /// <summary>What is configured.</summary>
    public ReadingPortSettings Configured { get; }

    /// <summary>What can be seen of it.</summary>
    public PortBook Book { get; }

    /// <summary>Ends when no push is under way.</summary>
    public Task Idle => _collector.Idle;

    /// <summary>Reads a connection to its end.</summary>
    /// <param name="input">What the gauge sends.</param>
    /// <param name="from">Where the gauge is.</param>
    /// <param name="spoke">Called at the first line, which shows that it is a gauge and not another protocol.</param>
    /// <param name="stop">Nothing more of this connection is taken.</param>
    public async Task Read(PipeReader input, string from, Action? spoke, CancellationToken stop)
    {
        var visit = new Visit(new(_time), from, _time.GetTimestamp(), spoke, stop);
        try
        {
            while (true)
            {
                var read = await input.ReadAsync(stop);
                stop.ThrowIfCancellationRequested(); // What a replaced connection still held is not used.
                foreach (var part in read.Buffer)
                {
                    Take(visit, part.Span);
                }

                input.AdvanceTo(read.Buffer.End);
                if (read.IsCompleted)
                {
                    return;
                }
            }
        }
        finally
        {
            if (visit.Lines.End(out var rest))
            {
                NotUsed(PortCause.CutOff, rest);
            }
        }
    }

    /// <summary>Counts what was not used, and logs one of them a minute.</summary>
    public void NotUsed(PortCause cause, string what)
    {
        var shown = Refusal.Shown(what);
        Book.Count(cause, shown);
        if (_sampler.Take() is { } passedOver)
        {
            Log.NotUsed(_logger, Configured.Name, cause.Name(), shown, passedOver);
        }
    }

    private void Take(Visit visit, ReadOnlySpan<byte> bytes)
    {
        while (visit.Lines.Next(ref bytes, out var line, out var cause))
        {
            if (cause == PortCause.Foreign)
            {
                NotUsed(PortCause.Foreign, line);
                SendAway(visit);
            }

            if (!visit.Spoke)
            {
                visit.Spoke = true;
                visit.OnSpoke?.Invoke();
                Clear(visit, "the gauge connected again");
            }

            Take(visit, line, cause);
        }

        if (visit.Spoke && visit.Lines.HasBegun)
        {
            lock (_lock)
            {
                _ = !visit.Stop.IsCancellationRequested && _guard.IsBurst(visit.Lines.Quiet);
            }
        }
    }

    /// <summary>A caller that speaks another protocol is not a gauge: what came before on the same connection is not used either.</summary>
    private void SendAway(Visit visit)
    {
        const string Why = "another protocol was spoken on the gauge's connection: HTTP, TLS or STUN";
        if (visit.Spoke)
        {
            Clear(visit, Why);
        }

        throw new ConnectionAbortedException(Why);
    }

    private void Clear(Visit visit, string why)
    {
        lock (_lock)
        {
            if (!visit.Stop.IsCancellationRequested)
            {
                _guard.Clear(why);
            }
        }
    }

    private void Take(Visit visit, string line, PortCause? cause)
    {
        lock (_lock)
        {
            if (visit.Stop.IsCancellationRequested)
            {
                return; // A newer connection of the gauge has spoken meanwhile.
            }

            Book.Line();
            var burst = _guard.IsBurst(visit.Lines.Quiet);
            if (_time.GetElapsedTime(visit.Connected, visit.Lines.Since) < Configured.Settle)
            {
                NotUsed(PortCause.Settling, line);
                return;
            }

            if (burst)
            {
                Book.Count(PortCause.Burst, "lines followed each other faster than a gauge measures");
                return;
            }

            if (!_budget.Take())
            {
                Book.Count(PortCause.TooFast, "lines came faster than they are examined");
                return;
            }

            if (cause is null && _timedOut is { } since && _time.GetElapsedTime(since) < Pause)
            {
                Book.Count(PortCause.PassedOver, "matching a line took too long; simplify the pattern");
                return;
            }

            var reading = default(GaugeReading);
            cause ??= Configured.Pattern.Match(line, out var found) ?? ReadingText.Read(found, Configured, out reading);
            if (cause is not { } why)
            {
                _guard.Hold(reading, visit.From, _collector.Now);
                return;
            }

            _timedOut = why == PortCause.PatternTimeout ? _time.GetTimestamp() : null;
            NotUsed(why, line);
        }
    }

    /// <summary>One connection.</summary>
    private sealed record Visit(BareLines Lines, string From, long Connected, Action? OnSpoke, CancellationToken Stop)
    {
        /// <summary>Whether a line came on it.</summary>
        public bool Spoke { get; set; }
    }
}

using System.IO.Pipelines;
using Microsoft.Extensions.Logging;
using Stockseat.Answers.Reasons;
using Stockseat.Service.Answering;
using Stockseat.Service.Configuration;

namespace Stockseat.Service.Gauges;

/// <summary>Takes what a gauge sends: lines to readings, readings to measurements. How the connection comes about is not its concern.</summary>
public sealed class ReadingPort
{
    /// <summary>So many lines a second are looked at: more than any gauge sends that a person holds.</summary>
    public const int LinesPerSecond = 20;

    /// <summary>For so long no line is looked at after one whose matching took too long.</summary>
    public static readonly TimeSpan Pause = TimeSpan.FromSeconds(1);

    private readonly Lock _lock = new();
    private readonly Collector _collector;
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
    /// <param name="stop">Nothing is tried again any more.</param>
    public ReadingPort(ReadingPortSettings settings, IAnswerer answerer, TimeProvider time, ILogger logger, CancellationToken stop)
    {
        (Settings, Book, _time, _logger) = (settings, new(settings, time), time, logger);
        _collector = new(settings, answerer, Book, time, logger, stop);
        _budget = new(time, LinesPerSecond);
        _sampler = new(time, TimeSpan.FromMinutes(1));
    }

    /// <summary>What is configured.</summary>
    public ReadingPortSettings Settings { get; }

    /// <summary>What can be seen of it.</summary>
    public PortBook Book { get; }

    /// <summary>Ends when no push is under way.</summary>
    public Task Idle => _collector.Idle;

    /// <summary>Reads a connection to its end.</summary>
    /// <param name="input">What the gauge sends.</param>
    /// <param name="from">Where the gauge is.</param>
    /// <param name="stop">Nothing more of this connection is taken.</param>
    public async Task Read(PipeReader input, string from, CancellationToken stop)
    {
        var lines = new BareLines(_time);
        try
        {
            while (true)
            {
                var read = await input.ReadAsync(stop);
                stop.ThrowIfCancellationRequested(); // What a replaced connection still held is not used.
                foreach (var part in read.Buffer)
                {
                    Take(lines, part.Span, from);
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
            if (lines.End(out var rest))
            {
                NotUsed(PortCause.CutOff, rest);
            }
        }
    }

    /// <summary>Counts what was not used and tells one of them a minute.</summary>
    public void NotUsed(PortCause cause, string what)
    {
        var shown = Refusal.Shown(what);
        Book.Count(cause, shown);
        if (_sampler.Take() is { } passedOver)
        {
            Log.NotUsed(_logger, Settings.Name, cause.Name(), shown, passedOver);
        }
    }

    private void Take(BareLines lines, ReadOnlySpan<byte> bytes, string from)
    {
        while (lines.Next(ref bytes, out var line, out var cause))
        {
            Take(line, cause, from);
        }
    }

    private void Take(string line, PortCause? cause, string from)
    {
        lock (_lock)
        {
            Book.Line();
            if (!_budget.Take())
            {
                Book.Count(PortCause.TooFast, "lines came faster than they are looked at");
                return;
            }

            if (cause is null && _timedOut is { } since && _time.GetElapsedTime(since) < Pause)
            {
                Book.Count(PortCause.PassedOver, "matching a line took too long: mend the pattern");
                return;
            }

            var reading = default(Reading);
            cause ??= Settings.Pattern.Match(line, out var found) ?? ReadingText.Read(found, Settings, out reading);
            if (cause is not { } why)
            {
                Book.Reading();
                _collector.Add(reading, from);
                return;
            }

            _timedOut = why == PortCause.PatternTimeout ? _time.GetTimestamp() : null;
            NotUsed(why, line);
        }
    }
}

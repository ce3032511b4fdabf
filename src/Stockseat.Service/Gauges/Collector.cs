using Microsoft.Extensions.Logging;
using Stockseat.Answers.Deciding;
using Stockseat.Answers.Reasons;
using Stockseat.Service.Answering;
using Stockseat.Service.Configuration;

namespace Stockseat.Service.Gauges;

/// <summary>Collects the readings of one measurement and pushes them, one push at a time. Each reading keeps the time at which it came.</summary>
public sealed class Collector(ReadingPortSettings port, IAnswerer answerer, PortBook book, TimeProvider time, ILogger logger)
{
    /// <summary>So many wait for the push before them.</summary>
    private const int MostWaiting = 100;

    private readonly Lock _lock = new();
    private readonly List<Waiting> _waiting = [];
    private bool _busy;

    /// <summary>Ends when no push is under way.</summary>
    public Task Idle { get; private set; } = Task.CompletedTask;

    /// <summary>One more reading.</summary>
    /// <param name="reading">The reading.</param>
    /// <param name="from">Where the gauge is.</param>
    public void Add(Reading reading, string from)
    {
        lock (_lock)
        {
            _waiting.Add(new(reading, from, time.GetTimestamp()));
            if (_waiting.Count > MostWaiting)
            {
                _waiting.RemoveAt(0);
                book.Count(PortCause.Overrun, "readings came faster than the ledger took them");
            }

            if (!_busy)
            {
                _busy = true;
                Idle = Push();
            }
        }
    }

    private async Task Push()
    {
        while (Take() is { } readings)
        {
            try
            {
                await Push(readings);
            }
            catch (Exception e)
            {
                book.Refused("internal-failure");
                Log.PushFailed(logger, e, port.Name);
            }
        }
    }

    private async Task Push(IReadOnlyList<Waiting> readings)
    {
        var newest = readings[^1];
        var (_, refusal) = await answerer.Ask(new MeasureAsk(new(port.Name, null, newest.From), port.Fixture)
        {
            ReadingsMetres = [.. readings.Select(r => r.Reading.Metres)],
            Unit = newest.Reading.Unit,
            Gauge = port.Gauge,
            Terms = answerer.Terms(port.Gauge),
            Lot = newest.Reading.Lot,
            LotTerms = answerer.Lot(newest.Reading.Lot),
        });
        if (refusal is null)
        {
            book.Measurement();
            return;
        }

        book.Refused($"{refusal.Info.Name}: {refusal.Text}");
        if (refusal.Reason == Reason.ReadingsDisagree && readings.Count > 1)
        {
            lock (_lock)
            {
                _waiting.Insert(0, newest); // The stock may have been changed between the two: the newest is the first of what lies there now.
            }
        }
    }

    /// <summary>The readings of a measurement, oldest first; null when there are not enough.</summary>
    private Waiting[]? Take()
    {
        lock (_lock)
        {
            while (_waiting.Count > 0)
            {
                var first = _waiting[0];
                var others = _waiting.Take(port.Readings);
                if (others.Any(o => o.Reading.Lot != first.Reading.Lot || time.GetElapsedTime(first.At, o.At) > port.Within))
                {
                    _waiting.RemoveAt(0);
                    book.Count(PortCause.Expired, "a reading waited too long for the others of its measurement, or was of another lot");
                    continue;
                }

                if (_waiting.Count < port.Readings)
                {
                    break;
                }

                Waiting[] taken = [.. others];
                _waiting.RemoveRange(0, taken.Length);
                return taken;
            }

            _busy = false;
            return null;
        }
    }

    private sealed record Waiting(Reading Reading, string From, long At);
}

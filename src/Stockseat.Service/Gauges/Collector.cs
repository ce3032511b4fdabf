using Microsoft.Extensions.Logging;
using Stockseat.Answers.Deciding;
using Stockseat.Answers.Reasons;
using Stockseat.Service.Answering;
using Stockseat.Service.Configuration;

namespace Stockseat.Service.Gauges;

/// <summary>Collects the readings of one measurement and pushes them, one push at a time. Each reading keeps the time at which it came.</summary>
public sealed class Collector(ReadingPortSettings port, IAnswerer answerer, PortBook book, TimeProvider time, ILogger logger, CancellationToken stop)
{
    /// <summary>So many wait for the push before them.</summary>
    private const int MostWaiting = 100;

    /// <summary>After so long a push is tried again that the ledger did not take.</summary>
    private static readonly TimeSpan RetryAfter = TimeSpan.FromSeconds(1);

    private readonly Lock _lock = new();
    private readonly List<Waiting> _waiting = [];
    private bool _busy;

    /// <summary>Ends when no push is under way.</summary>
    public Task Idle { get; private set; } = Task.CompletedTask;

    /// <summary>One more reading.</summary>
    /// <param name="reading">The reading.</param>
    /// <param name="from">Where the gauge is.</param>
    /// <param name="arrived">When its line came.</param>
    public void Add(Reading reading, string from, long arrived)
    {
        lock (_lock)
        {
            _waiting.Add(new(reading, from, arrived));
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

    /// <summary>Readings that wait for others are not used.</summary>
    /// <param name="why">Why.</param>
    public void Clear(string why)
    {
        lock (_lock)
        {
            _waiting.ForEach(_ => book.Count(PortCause.Expired, why));
            _waiting.Clear();
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
            catch (OperationCanceledException)
            {
                return;
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
        var caller = new Caller(port.Name, null, newest.From);
        var refusal = await Record(readings[0], caller, new MeasureAsk(caller, port.Fixture)
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

    /// <summary>
    /// Pushes until the ledger has taken it: nobody at the gauge is told, so that the diameter before must not stand in for one that was lost. Readings that
    /// had to wait too long void it, and are not used.
    /// </summary>
    /// <returns>Why there is no measurement; null when there is, or when that is counted already.</returns>
    private async Task<Refusal?> Record(Waiting first, Caller caller, MeasureAsk push)
    {
        Ask ask = push;
        while (true)
        {
            var (_, refusal) = await answerer.Ask(ask);
            if (refusal is not { Reason: Reason.LedgerUnavailable or Reason.TooBusy })
            {
                if (refusal is null && ReferenceEquals(ask, push))
                {
                    book.Measurement();
                }

                return refusal;
            }

            await Task.Delay(RetryAfter, time, stop);
            if (ReferenceEquals(ask, push) && time.GetElapsedTime(first.At) > port.Within)
            {
                book.Count(PortCause.Expired, "the ledger could not be written for too long: the readings are lost, and the measurement before is void");
                ask = new EmptiedAsk(caller, port.Fixture);
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

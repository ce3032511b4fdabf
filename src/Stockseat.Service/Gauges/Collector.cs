using Microsoft.Extensions.Logging;
using Stockseat.Answers.Asking;
using Stockseat.Answers.Measured;
using Stockseat.Answers.Reasons;
using Stockseat.Answers.State;
using Stockseat.Service.Answering;

namespace Stockseat.Service.Gauges;

/// <summary>
/// Collects the readings of one measurement and pushes them, one push at a time. Each reading keeps the time at which it came, and the
/// entry after which it came: a reading from before the nests were emptied is not used afterwards.
/// </summary>
public sealed class Collector(ReadingPortSettings port, IAnswerer answerer, PortBook book, TimeProvider time, ILogger logger, CancellationToken stop)
{
    /// <summary>How many measurements may wait for the push before them.</summary>
    private const int MostWaiting = 100;

    /// <summary>After this time a push that the ledger did not take is tried again.</summary>
    private static readonly TimeSpan RetryAfter = TimeSpan.FromSeconds(1);

    private readonly Lock _lock = new();
    private readonly List<Waiting> _waiting = [];
    private bool _busy;
    private long _cleared;

    /// <summary>Ends when no push is under way.</summary>
    public Task Idle { get; private set; } = Task.CompletedTask;

    /// <summary>What comes now.</summary>
    public Arrival Now => new(time.GetTimestamp(), answerer.Serial);

    /// <summary>One more reading.</summary>
    /// <param name="reading">The reading.</param>
    /// <param name="from">Where the gauge is.</param>
    /// <param name="arrived">When its line came.</param>
    public void Add(GaugeReading reading, string from, Arrival arrived)
    {
        lock (_lock)
        {
            _waiting.Add(new(reading, from, arrived.At, arrived.Since));
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

    /// <summary>Discards readings that wait for others.</summary>
    /// <param name="why">Why.</param>
    public void Clear(string why)
    {
        lock (_lock)
        {
            _cleared++;
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
        var cleared = Interlocked.Read(ref _cleared);
        var refusal = await Record(readings[0], new MeasureAsk(new Caller(port.Name, null, newest.From), port.Fixture)
        {
            ReadingsMetres = [.. readings.Select(r => r.Reading.Metres)],
            ReadingsSent = readings.All(r => r.Reading.Sent is not null) ? [.. readings.Select(r => r.Reading.Sent!)] : null,
            Unit = newest.Reading.Unit,
            Gauge = port.Gauge,
            Terms = answerer.Terms(port.Gauge),
            Lot = newest.Reading.Lot,
            LotTerms = answerer.Lot(newest.Reading.Lot),
            Since = readings[0].Since,
            FirstAt = readings[0].At,
        });
        if (refusal is null)
        {
            return;
        }

        book.Refused($"{refusal.Info.Name}: {refusal.Text}");
        if (refusal.Reason is Reason.ReadingsDisagree or Reason.MeasurementStale && readings.Count > 1)
        {
            lock (_lock)
            {
                if (cleared == _cleared)
                {
                    _waiting.Insert(0, newest); // The stock may have been changed between the two: the newest reading is the first one of the present stock.
                }
            }
        }
    }

    /// <summary>
    /// Pushes until the ledger has taken it, since nobody at the gauge would notice that it had not. Readings that had to wait too long are not used; but the
    /// ledger's writer knows that they came, and uses no older diameter in their place.
    /// </summary>
    /// <returns>Why there is no measurement; null when there is one, or when the cause is counted already.</returns>
    private async Task<Refusal?> Record(Waiting first, MeasureAsk push)
    {
        while (true)
        {
            var refusal = (await answerer.Ask(push)).Refusal;
            if (refusal is not { Reason: Reason.LedgerUnavailable or Reason.TooBusy })
            {
                if (refusal is null)
                {
                    book.Measurement();
                }

                return refusal;
            }

            await Task.Delay(RetryAfter, time, stop);
            if (time.GetElapsedTime(first.At) > port.Within)
            {
                book.Count(PortCause.Expired, "the ledger could not be written for too long: the readings are lost, and the measurement before them is void");
                return null;
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
                if (IsCleared(first))
                {
                    _waiting.RemoveAt(0);
                    book.Count(PortCause.Expired, "a reading came before the nests were emptied, the fixture was held, a revision was adopted or its "
                        + "lot was described");
                    continue;
                }

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

    /// <summary>Whether a reading may be of stock that is no longer there. The decision checks the same again, with certainty.</summary>
    private bool IsCleared(Waiting reading)
    {
        var situation = answerer.Situation;
        return situation.Find(port.Fixture)?.Cleared > reading.Since
            || (reading.Reading.Lot is { } lot && situation.Lots.GetValueOrDefault(lot)?.Serial > reading.Since);
    }

    /// <param name="Reading">The reading.</param>
    /// <param name="From">Where the gauge is.</param>
    /// <param name="At">When it came, by the clock's counter.</param>
    /// <param name="Since">The last entry of the ledger at that time.</param>
    private sealed record Waiting(GaugeReading Reading, string From, long At, long Since);
}

namespace Stockseat.Service.Gauges;

/// <summary>
/// A gauge that a person holds can't send lines in quick succession: such lines come out of a buffer, and their age is not known. So a reading is held back
/// until nothing has followed it for the shortest time between measurements, and no line of a burst is used, not even its first.
/// </summary>
internal sealed class BurstGuard(ReadingPortSettings port, PortBook book, Collector collector, TimeProvider time, CancellationToken stop)
{
    private const string Why = "lines followed each other faster than a gauge measures";

    private readonly Lock _lock = new();
    private Held? _held;

    /// <summary>
    /// Whether a line that came, or began to come, belongs to a burst; then the reading held back, and readings that wait for more, are not used.
    /// </summary>
    /// <param name="quiet">How long nothing had come before it.</param>
    public bool IsBurst(TimeSpan quiet)
    {
        lock (_lock)
        {
            if (quiet >= port.Apart)
            {
                HandOn();
                return false;
            }

            if (_held is not null)
            {
                _held = null;
                book.Count(PortCause.Burst, Why);
            }

            collector.Clear(Why);
            return true;
        }
    }

    /// <summary>Holds a reading back, and passes it on when nothing follows it.</summary>
    public void Hold(GaugeReading reading, string from, Arrival arrived)
    {
        lock (_lock)
        {
            _held = new(reading, from, arrived);
            if (port.Apart == TimeSpan.Zero)
            {
                HandOn();
            }
            else
            {
                _ = HandOnLater(_held);
            }
        }
    }

    /// <summary>Discards the reading held back, and those that wait for more readings.</summary>
    public void Clear(string why)
    {
        lock (_lock)
        {
            if (_held is not null)
            {
                _held = null;
                book.Count(PortCause.Expired, why);
            }

            collector.Clear(why);
        }
    }

    private async Task HandOnLater(Held held)
    {
        await Task.Delay(port.Apart, time, stop).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        lock (_lock)
        {
            if (ReferenceEquals(_held, held) && !stop.IsCancellationRequested)
            {
                HandOn();
            }
        }
    }

    private void HandOn()
    {
        if (_held is { } held)
        {
            _held = null;
            book.Reading();
            collector.Add(held.Reading, held.From, held.Arrived);
        }
    }

    private sealed record Held(GaugeReading Reading, string From, Arrival Arrived);
}

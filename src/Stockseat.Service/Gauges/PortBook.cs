namespace Stockseat.Service.Gauges;

/// <summary>Keeps the visible state of a reading port.</summary>
public sealed class PortBook
{
    private readonly Lock _lock = new();
    private readonly ReadingPortSettings _port;
    private readonly TimeProvider _time;
    private readonly long[] _causes = new long[Enum.GetValues<PortCause>().Length + 1];
    private PortState _state;
    private DateTimeOffset _since;
    private string _endpoint;
    private string? _lastCause;
    private long _lines;
    private long _readings;
    private long _measurements;
    private long _refused;

    /// <summary>A port that was just started.</summary>
    public PortBook(ReadingPortSettings port, TimeProvider time)
    {
        (_port, _time, _endpoint, _since) = (port, time, port.Endpoint, time.GetUtcNow());
        _state = port.Listen is null ? PortState.Connecting : PortState.Listening;
    }

    /// <summary>As it is now.</summary>
    public PortStatus Status
    {
        get
        {
            lock (_lock)
            {
                List<KeyValuePair<string, long>> counts =
                    [new("lines", _lines), new("readings", _readings), new("measurements", _measurements), new("refused", _refused)];
                counts.AddRange(Enum.GetValues<PortCause>().Where(c => _causes[(int)c] > 0).Select(c => KeyValuePair.Create(c.Name(), _causes[(int)c])));
                return new(_port.Name, _port.Gauge, _port.Fixture, _endpoint, _state, _since, counts, _lastCause);
            }
        }
    }

    /// <summary>Where it really listens, when a free port was taken.</summary>
    public void Bound(string endpoint)
    {
        lock (_lock)
        {
            _endpoint = endpoint;
        }
    }

    /// <summary>Its state changes.</summary>
    public void Becomes(PortState state)
    {
        lock (_lock)
        {
            (_since, _state) = (_state == state ? _since : _time.GetUtcNow(), state);
        }
    }

    /// <summary>A line came.</summary>
    public void Line() => Interlocked.Increment(ref _lines);

    /// <summary>A reading was found in it.</summary>
    public void Reading() => Interlocked.Increment(ref _readings);

    /// <summary>A measurement is in the ledger.</summary>
    public void Measurement() => Interlocked.Increment(ref _measurements);

    /// <summary>A push was refused.</summary>
    public void Refused(string cause)
    {
        lock (_lock)
        {
            _refused++;
            _lastCause = cause;
        }
    }

    /// <summary>Something was not used.</summary>
    /// <param name="cause">Why.</param>
    /// <param name="text">What it was, in a form that can be shown.</param>
    public void Count(PortCause cause, string text)
    {
        lock (_lock)
        {
            _causes[(int)cause]++;
            _lastCause = $"{cause.Name()}: {text}";
        }
    }
}

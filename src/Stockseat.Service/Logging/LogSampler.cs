namespace Stockseat.Service.Logging;

/// <summary>
/// Lets one message a second, or in another interval, through and counts the others: a flood of bad requests must not fill the disk that the ledger is on.
/// </summary>
internal sealed class LogSampler(TimeProvider time, TimeSpan? interval = null)
{
    private readonly TimeSpan _interval = interval ?? TimeSpan.FromSeconds(1);

    private readonly Lock _lock = new();
    private long? _last;
    private long _passedOver;

    /// <summary>How many were left out before this one; null when this one is left out too.</summary>
    public long? Take()
    {
        lock (_lock)
        {
            if (_last is { } last && time.GetElapsedTime(last) < _interval)
            {
                _passedOver++;
                return null;
            }

            _last = time.GetTimestamp();
            var passedOver = _passedOver;
            _passedOver = 0;
            return passedOver;
        }
    }
}

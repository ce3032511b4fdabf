namespace Stockseat.Service.Answering;

/// <summary>Lets one message a second through and counts the others: a flood of bad requests must not fill the disk that the ledger is on.</summary>
internal sealed class LogSampler(TimeProvider time)
{
    private static readonly TimeSpan Interval = TimeSpan.FromSeconds(1);

    private readonly Lock _lock = new();
    private long? _last;
    private long _passedOver;

    /// <summary>How many were passed over before this one; null when this one is passed over too.</summary>
    public long? Take()
    {
        lock (_lock)
        {
            if (_last is { } last && time.GetElapsedTime(last) < Interval)
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

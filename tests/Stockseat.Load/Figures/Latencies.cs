using System.Collections.Concurrent;
using System.Globalization;

namespace Stockseat.Load.Figures;

/// <summary>Latencies, kept one by one.</summary>
internal sealed class Latencies
{
    private const double FirstBucketMs = 0.1;

    private readonly ConcurrentBag<double> _ms = [];

    public int Count => _ms.Count;

    public void Add(TimeSpan latency) => _ms.Add(latency.TotalMilliseconds);

    public void Add(Latencies others)
    {
        foreach (var ms in others._ms)
        {
            _ms.Add(ms);
        }
    }

    /// <summary>The least latency in ms that this share of them does not exceed.</summary>
    public double Percentile(double percent)
    {
        var sorted = _ms.Order().ToArray();
        return sorted.Length == 0 ? double.NaN : sorted[Math.Clamp((int)Math.Ceiling(percent / 100 * sorted.Length) - 1, 0, sorted.Length - 1)];
    }

    public string Summary() => string.Create(
        CultureInfo.InvariantCulture,
        $"p50 {Percentile(50):F2} ms, p99 {Percentile(99):F2} ms, p99.9 {Percentile(99.9):F2} ms, max {Percentile(100):F2} ms, {Count} in all");

    /// <summary>How many latencies are in each bucket; the upper ends of the buckets are powers of two from 0.1 ms.</summary>
    public SortedDictionary<double, int> Histogram()
    {
        var counts = new SortedDictionary<double, int>();
        foreach (var ms in _ms)
        {
            var end = FirstBucketMs * Math.Pow(2, Math.Max(0, Math.Ceiling(Math.Log2(ms / FirstBucketMs))));
            counts[end] = counts.GetValueOrDefault(end) + 1;
        }

        return counts;
    }
}

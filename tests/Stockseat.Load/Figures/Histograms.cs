using System.Globalization;
using System.Text;

namespace Stockseat.Load.Figures;

/// <summary>Histograms side by side, coarse: the upper ends of the buckets are powers of two from 0.1 ms.</summary>
internal static class Histograms
{
    public static string Text(string subject, Latencies asks, string baseline, Latencies others)
    {
        var (left, right) = (asks.Histogram(), others.Histogram());
        var text = new StringBuilder().Append(CultureInfo.InvariantCulture, $"| up to ms | {subject} | {baseline} |\n| ---: | ---: | ---: |");
        foreach (var end in left.Keys.Union(right.Keys).Order())
        {
            text.Append(CultureInfo.InvariantCulture, $"\n| {end:0.0} | {left.GetValueOrDefault(end)} | {right.GetValueOrDefault(end)} |");
        }

        return text.ToString();
    }
}

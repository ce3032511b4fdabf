using System.Diagnostics;
using System.Globalization;

namespace Stockseat.Load.Servers;

/// <summary>
/// How much of the cores went to what is no part of the run: other programs, the kernel's own threads, other machines on the same host. With much of it the
/// clock's figures say little; processor time still does.
/// </summary>
internal sealed class OtherWork
{
    // user, nice, system, irq, softirq, steal; without the two that are idle
    private static readonly int[] Busy = [1, 2, 3, 6, 7, 8];

    private readonly long _begun = Stopwatch.GetTimestamp();
    private readonly TimeSpan _before = Others();

    /// <summary>The cores that it took on average, since this was made; all children have to have ended.</summary>
    public double Cores => Math.Max(0, (Others() - _before) / Stopwatch.GetElapsedTime(_begun));

    private static TimeSpan Others()
    {
        const double ticksASecond = 100; // of this file, on every machine that .NET runs on
        var fields = File.ReadLines("/proc/stat").First().Split(' ', StringSplitOptions.RemoveEmptyEntries);
        var busy = TimeSpan.FromSeconds(Busy.Sum(i => long.Parse(fields[i], CultureInfo.InvariantCulture)) / ticksASecond);
        return busy - Environment.CpuUsage.TotalTime - Native.ProcessorTimeOfEnded();
    }
}

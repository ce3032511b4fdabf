using System.Diagnostics;
using System.Globalization;

namespace Stockseat.Load.Servers;

/// <summary>
/// How much of the cores was used by work that is not part of the run: other programs, the kernel's own threads, other machines on the same host. With much
/// of it, figures by the clock mean little; processor time still does.
/// </summary>
internal sealed class OtherWork
{
    // user, nice, system, irq, softirq, steal; without the two idle counters
    private static readonly int[] Busy = [1, 2, 3, 6, 7, 8];

    private readonly long _begun = Stopwatch.GetTimestamp();
    private readonly TimeSpan _before = Others();

    /// <summary>The cores that other work used on average, since this was made; all child processes have to have ended.</summary>
    public double Cores => Math.Max(0, (Others() - _before) / Stopwatch.GetElapsedTime(_begun));

    private static TimeSpan Others()
    {
        const double ticksASecond = 100; // the unit of this file, the same on every machine that .NET runs on
        var fields = File.ReadLines("/proc/stat").First().Split(' ', StringSplitOptions.RemoveEmptyEntries);
        var busy = TimeSpan.FromSeconds(Busy.Sum(i => long.Parse(fields[i], CultureInfo.InvariantCulture)) / ticksASecond);
        return busy - Environment.CpuUsage.TotalTime - Native.ProcessorTimeOfEnded();
    }
}

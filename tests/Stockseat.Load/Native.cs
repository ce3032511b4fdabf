using System.Runtime.InteropServices;
using Microsoft.Win32.SafeHandles;

namespace Stockseat.Load;

/// <summary>What the platform does not offer: signals, short sleeps, the processor time of other processes, a sync of the data alone.</summary>
internal static partial class Native
{
    public const int SigInt = 2;
    public const int SigTerm = 15;
    private const int Children = -1;
    private const int SecondsMicrosecondsPairs = 2;

    [LibraryImport("libc", EntryPoint = "kill", SetLastError = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    public static partial int Signal(int process, int signal);

    /// <summary>Sleeps for less than the platform's timers can: those work in whole milliseconds.</summary>
    public static void Sleep(TimeSpan span)
    {
        if (span > TimeSpan.Zero)
        {
            var (seconds, rest) = Math.DivRem(span.Ticks, TimeSpan.TicksPerSecond);
            _ = Sleep(new Span(seconds, rest * TimeSpan.NanosecondsPerTick), 0);
        }
    }

    /// <summary>The processor time of a running process until now, user and system, of all its threads, including ended ones.</summary>
    public static TimeSpan ProcessorTime(int process)
    {
        if (ClockOf(process, out var clock) is not 0 and var error)
        {
            throw new InvalidOperationException($"process {process} has no processor time: {Marshal.GetPInvokeErrorMessage(error)}");
        }

        return Read(clock, out var time) == 0
            ? TimeSpan.FromSeconds(time.Seconds) + TimeSpan.FromTicks(time.Nanoseconds / TimeSpan.NanosecondsPerTick)
            : throw new InvalidOperationException($"the processor time of process {process} can't be read: {Marshal.GetLastPInvokeErrorMessage()}");
    }

    /// <summary>The processor time, user and system, of all children that have ended.</summary>
    public static TimeSpan ProcessorTimeOfEnded()
    {
        Span<long> usage = stackalloc long[18];
        if (Usage(Children, usage) != 0)
        {
            throw new InvalidOperationException($"getrusage failed: {Marshal.GetLastPInvokeErrorMessage()}");
        }

        var time = TimeSpan.Zero;
        for (var i = 0; i < SecondsMicrosecondsPairs; i++)
        {
            time += TimeSpan.FromSeconds(usage[2 * i]) + TimeSpan.FromMicroseconds(usage[2 * i + 1]);
        }

        return time;
    }

    /// <summary>Puts the bytes of a file on the disk, and of its metadata only as much as is needed to find them.</summary>
    public static void SyncData(SafeFileHandle file)
    {
        if (SyncData((int)file.DangerousGetHandle()) != 0)
        {
            throw new IOException($"fdatasync failed: {Marshal.GetLastPInvokeErrorMessage()}");
        }
    }

    [LibraryImport("libc", EntryPoint = "nanosleep")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static partial int Sleep(in Span span, nint rest);

    [LibraryImport("libc", EntryPoint = "clock_getcpuclockid")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static partial int ClockOf(int process, out int clock);

    [LibraryImport("libc", EntryPoint = "clock_gettime", SetLastError = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static partial int Read(int clock, out Span time);

    [LibraryImport("libc", EntryPoint = "getrusage", SetLastError = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static partial int Usage(int who, Span<long> usage);

    [LibraryImport("libc", EntryPoint = "fdatasync", SetLastError = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static partial int SyncData(int file);

    private readonly record struct Span(long Seconds, long Nanoseconds);
}

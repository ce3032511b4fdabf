using System.Runtime.InteropServices;

namespace Stockseat.Load;

/// <summary>What the platform does not offer: signals and short sleeps.</summary>
internal static partial class Native
{
    public const int SigInt = 2;
    public const int SigTerm = 15;

    [LibraryImport("libc", EntryPoint = "kill", SetLastError = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    public static partial int Signal(int process, int signal);

    /// <summary>Sleeps for less than a timer of the platform can: those have whole milliseconds.</summary>
    public static void Sleep(TimeSpan span)
    {
        if (span > TimeSpan.Zero)
        {
            var (seconds, rest) = Math.DivRem(span.Ticks, TimeSpan.TicksPerSecond);
            _ = Sleep(new Span(seconds, rest * TimeSpan.NanosecondsPerTick), 0);
        }
    }

    [LibraryImport("libc", EntryPoint = "nanosleep")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static partial int Sleep(in Span span, nint rest);

    private readonly record struct Span(long Seconds, long Nanoseconds);
}

using System.Runtime.InteropServices;
using System.Runtime.Versioning;

namespace Stockseat.Service.Hosting;

/// <summary>How many files this process may have open, and how many it has. A connection counts too. Known only on Linux.</summary>
internal static class OpenFiles
{
    private const int LimitOfFiles = 7;

    /// <summary>The limit, raised as far as the system lets it be; null: none is known.</summary>
    public static long? Limit() => OperatingSystem.IsLinux() ? Raise() : null;

    /// <summary>How many are open now.</summary>
    public static int Now() => OperatingSystem.IsLinux() ? Directory.EnumerateFileSystemEntries("/proc/self/fd").Count() : 0;

    [SupportedOSPlatform("linux")]
    private static long? Raise()
    {
        if (getrlimit(LimitOfFiles, out var limits) != 0)
        {
            return null;
        }

        var raised = limits with { Soft = limits.Hard };
        var soft = setrlimit(LimitOfFiles, in raised) == 0 ? raised.Soft : limits.Soft;
        return (long)Math.Min(soft, int.MaxValue); // Infinity is the largest number.
    }

    [DllImport("libc")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int getrlimit(int resource, out Limits limits);

    [DllImport("libc")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int setrlimit(int resource, in Limits limits);

    [StructLayout(LayoutKind.Sequential)]
    private record struct Limits(ulong Soft, ulong Hard);
}

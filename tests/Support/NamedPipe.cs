using System.Diagnostics;

namespace Stockseat.Tests.Support;

/// <summary>A pipe in the file system, whose reader waits for a writer that never comes.</summary>
internal static class NamedPipe
{
    /// <summary>Makes a pipe that only its owner may open; a test is skipped, with the reason, on systems without such pipes.</summary>
    public static async Task Make(string path)
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "only Linux has pipes with file names");
        using var made = Process.Start("mkfifo", ["-m", "600", path]);
        Assert.Equal(0, await made.Ends("mkfifo"));
    }
}

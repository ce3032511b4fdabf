using System.Diagnostics;
using Microsoft.Win32.SafeHandles;
using Stockseat.Load.Figures;

namespace Stockseat.Load.Clients;

/// <summary>
/// What the disk costs any program: write 4 KiB, sync, again. The writing goes round in a file that already has its size, like a log that is used
/// again, so that a sync has no new length to record.
/// </summary>
internal static class BareSync
{
    private const int Page = 4096;
    private const int Pages = 1000;

    /// <summary>Writes and syncs.</summary>
    /// <param name="folder">A folder on the disk in question.</param>
    /// <param name="span">For how long.</param>
    /// <param name="sync">The call that syncs.</param>
    public static Latencies Run(string folder, TimeSpan span, Action<SafeFileHandle> sync)
    {
        var latencies = new Latencies();
        var path = Path.Combine(folder, "bare-sync");
        var page = new byte[Page];
        using (var file = File.OpenHandle(path, FileMode.Create, FileAccess.Write))
        {
            for (var i = 0; i < Pages; i++)
            {
                RandomAccess.Write(file, page, i * Page);
            }

            RandomAccess.FlushToDisk(file);
            var begin = Stopwatch.GetTimestamp();
            for (var i = 0; Stopwatch.GetElapsedTime(begin) < span; i++)
            {
                Random.Shared.NextBytes(page.AsSpan(0, 64));
                var one = Stopwatch.GetTimestamp();
                RandomAccess.Write(file, page, i % Pages * Page);
                sync(file);
                latencies.Add(Stopwatch.GetElapsedTime(one));
            }
        }

        File.Delete(path);
        return latencies;
    }
}

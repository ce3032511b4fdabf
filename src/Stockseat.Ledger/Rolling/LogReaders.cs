using System.Globalization;
using Stockseat.Fixtures.Files;

namespace Stockseat.Ledger.Rolling;

/// <summary>
/// Which processes keep the log of a ledger from being copied into the ledger. Linux's kernel shows them; on other systems they are not known.
/// </summary>
internal static class LogReaders
{
    private const string Locks = "/proc/locks";

    /// <summary>The place in the log's index where SQLite locks the part that a reader reads: one byte for each reader that there can be.</summary>
    private static readonly (int First, int Last) Marks = (123, 127);

    /// <summary>The processes that read, in words.</summary>
    /// <param name="ledger">The ledger's file.</param>
    public static string Of(string ledger)
    {
        try
        {
            if (FileFacts.Of(ledger + "-shm") is { } index)
            {
                var readers = File.ReadLines(Locks).Select(l => Process(l, index)).OfType<int>().Distinct().Order().ToList();
                if (readers.Count > 0)
                {
                    return string.Join(" and ", readers.Select(Name));
                }
            }
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // In that case the readers are not known.
        }

        return "another program";
    }

    /// <summary>The process of a lock that a reader has on the index; null: the lock is another one.</summary>
    private static int? Process(string line, FileFacts index)
    {
        // 12: POSIX  ADVISORY  READ 1483 fe:00:11732194 124 124
        var words = line.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        return words is [_, "POSIX", _, "READ", var process, var file, var from, _]
            && file.EndsWith(string.Create(CultureInfo.InvariantCulture, $":{index.Inode}"), StringComparison.Ordinal)
            && int.TryParse(from, CultureInfo.InvariantCulture, out var at) && at >= Marks.First && at <= Marks.Last
            && int.TryParse(process, CultureInfo.InvariantCulture, out var id) ? id : null;
    }

    private static string Name(int process)
    {
        if (process == Environment.ProcessId)
        {
            return "a reader of this service";
        }

        try
        {
            return string.Create(CultureInfo.InvariantCulture, $"process {process} ({File.ReadAllText($"/proc/{process}/comm").Trim()})");
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // The process may have ended, or run in another container.
            return process > 0 ? string.Create(CultureInfo.InvariantCulture, $"process {process}") : "another program";
        }
    }
}

using Microsoft.Data.Sqlite;
using Stockseat.Ledger.Store;

namespace Stockseat.Audit.Replaying;

/// <summary>One ledger file of a folder: the present one, or one that was closed.</summary>
/// <param name="First">Its first serial.</param>
/// <param name="Last">Its last one when the replay began.</param>
/// <param name="Path">The file; null: the present ledger.</param>
/// <param name="Fault">Why it can't be read; null when it can.</param>
internal sealed record ReplayedLedger(long First, long Last, string? Path, string? Fault)
{
    /// <summary>All ledgers of a folder, as they are now.</summary>
    /// <exception cref="FileNotFoundException">There is no ledger in the folder.</exception>
    public static IReadOnlyList<ReplayedLedger> All(string folder)
    {
        using var current = LedgerFile.OpenReader(folder);
        var first = LedgerQueries.First(current)?.Serial;
        // the same way as the service
        var closed = ClosedLedgers.Of(folder).Where(f => first is null || f.First < first).GroupBy(f => f.First, (_, same) => same.Last()).ToList();
        var all = new List<ReplayedLedger>();
        for (var i = 0; i < closed.Count; i++)
        {
            all.Add(Closed(closed[i].First, closed[i].Path, (i + 1 < closed.Count ? closed[i + 1].First : first ?? long.MaxValue) - 1));
        }

        if (first is { } begins)
        {
            all.Add(new(begins, LedgerQueries.Last(current), null, null));
        }

        return all;
    }

    /// <summary>Opens it, wherever it is now: the present ledger may have been closed meanwhile.</summary>
    public SqliteConnection Open(string folder)
    {
        if (Path is not null)
        {
            return LedgerFile.OpenClosed(File.Exists(Path) ? Path : ClosedLedgers.Ended(Path));
        }

        var current = LedgerFile.OpenReader(folder);
        try
        {
            if (LedgerQueries.First(current)?.Serial == First)
            {
                return current;
            }
        }
        catch
        {
            current.Dispose();
            throw;
        }

        current.Dispose();
        var closed = ClosedLedgers.Of(folder).LastOrDefault(f => f.First == First).Path
            ?? throw new IOException($"the ledger that begins with entry {First} rolled over and was moved away while it was replayed; replay again");
        return LedgerFile.OpenClosed(closed);
    }

    private static ReplayedLedger Closed(long first, string path, long end)
    {
        try
        {
            using var connection = LedgerFile.OpenClosed(path);
            return new(first, Math.Min(end, LedgerQueries.Last(connection)), path, null);
        }
        catch (Exception e) when (ClosedLedgers.IsUnreadable(e))
        {
            return new(
                first, end, path,
                $"{System.IO.Path.GetFileName(path)} among the closed ledgers can't be read: {e.Message.TrimEnd('.')}; replace it with a copy, or move it "
                    + $"away");
        }
    }
}

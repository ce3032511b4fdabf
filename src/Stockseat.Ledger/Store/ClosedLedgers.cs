using System.Globalization;
using Microsoft.Data.Sqlite;

namespace Stockseat.Ledger.Store;

/// <summary>The ledgers of a data folder that have ended, as far as nobody moved them away. They never change again.</summary>
public static class ClosedLedgers
{
    /// <summary>Where they are, in the data folder.</summary>
    public const string Folder = "closed";

    private const string Extension = ".db";

    /// <summary>What stands behind the name while the new ledger is not yet in its place.</summary>
    private const string EndingMark = ".ending";

    /// <summary>What stands behind it while a reader keeps the end of its log from being copied into it; the log is beside it then.</summary>
    private const string HeldMark = ".held";

    /// <summary>The files, by their first serials, which their names begin with; of those with the same one that was closed last is the last.</summary>
    /// <param name="data">The data folder.</param>
    public static IReadOnlyList<(long First, string Path)> Of(string data)
    {
        var folder = Path.Combine(data, Folder);
        return !Directory.Exists(folder) ? [] :
        [
            .. Directory.EnumerateFiles(folder)
                .Where(p => p.EndsWith(Extension, StringComparison.Ordinal) || IsLeaving(p))
                .Select(p => (First: First(p), Path: p)).Where(f => f.First > 0).OrderBy(f => f.First).ThenBy(f => f.Path.Length)
                    .ThenBy(f => f.Path, StringComparer.Ordinal),
        ];
    }

    /// <summary>An entry of one of them; null when none that is still there has it, or it can't be read.</summary>
    /// <param name="data">The data folder.</param>
    /// <param name="serial">Its serial.</param>
    public static EntryRow? Find(string data, long serial)
    {
        try
        {
            if (Of(data).LastOrDefault(f => f.First <= serial) is not { Path: { } path })
            {
                return null;
            }

            using var connection = LedgerFile.OpenClosed(path);
            return LedgerQueries.Find(connection, serial);
        }
        catch (Exception e) when (IsUnreadable(e))
        {
            return null; // What is damaged there must not stop the ledger that is written.
        }
    }

    /// <summary>The request ids above a serial, in order; of a file that can't be read none.</summary>
    internal static IReadOnlyList<(string? Client, string Request, long Serial)> Requests(string data, long above) =>
        Above(data, above, c => RequestQueries.Of(c, above)); // A retry of an ask in one that can't be read is an ask of its own.

    /// <summary>What is found in those of them that have entries above a serial, in order; in a file that can't be read nothing.</summary>
    internal static IReadOnlyList<T> Above<T>(string data, long above, Func<SqliteConnection, IEnumerable<T>> find)
    {
        var all = new List<T>();
        var files = Of(data);
        for (var i = 0; i < files.Count; i++)
        {
            if (i + 1 < files.Count && files[i + 1].First <= above)
            {
                continue;
            }

            try
            {
                using var connection = LedgerFile.OpenClosed(files[i].Path);
                all.AddRange(find(connection));
            }
            catch (Exception e) when (IsUnreadable(e))
            {
                // What is damaged there must not stop the ledger that is written.
            }
        }

        return all;
    }

    /// <summary>Opens one of them; null when it can't be read.</summary>
    internal static SqliteConnection? TryOpen(string path)
    {
        SqliteConnection? connection = null;
        try
        {
            connection = LedgerFile.OpenClosed(path);
            _ = LedgerQueries.LedgerId(connection);
            return connection;
        }
        catch (Exception e) when (IsUnreadable(e) || e is System.Text.Json.JsonException)
        {
            connection?.Dispose();
            return null;
        }
    }

    public static bool IsUnreadable(Exception e) =>
        e is SqliteException or IOException or UnauthorizedAccessException or InvalidDataException or InvalidCastException or NotSupportedException;

    /// <summary>The name of a file of them.</summary>
    internal static string Name(string data, long first, string? ledger) =>
        Path.Combine(data, Folder, $"{first.ToString(CultureInfo.InvariantCulture)}-{ledger ?? "unnamed"}{Extension}");

    /// <summary>The files that a roll is not done with, in order: of the last one the new ledger may not be in its place yet.</summary>
    internal static IEnumerable<string> Leaving(string data) => Of(data).Select(f => f.Path).Where(IsLeaving);

    /// <summary>The name of a file that leaves its place.</summary>
    internal static string Leaving(string data, long first, string? ledger, bool held) => Name(data, first, ledger) + (held ? HeldMark : EndingMark);

    /// <summary>The last one's file and how many there are: another answer says that the ledger rolled over, or is about to have done so.</summary>
    internal static (int Count, string? Path) Newest(string data) => Of(data) is { Count: > 0 } all ? (all.Count, all[^1].Path) : (0, null);

    /// <summary>Whether a roll is not done with it: its name loses a mark yet.</summary>
    internal static bool IsLeaving(string path) => path.EndsWith(Extension + EndingMark, StringComparison.Ordinal) || IsHeld(path);

    /// <summary>Whether its log is beside it.</summary>
    internal static bool IsHeld(string path) => path.EndsWith(Extension + HeldMark, StringComparison.Ordinal);

    /// <summary>Its name without the mark.</summary>
    public static string Ended(string leaving) => IsLeaving(leaving) ? leaving[..leaving.LastIndexOf('.')] : leaving;

    /// <summary>
    /// A name that nothing has: an older ledger may have been put back that had rolled over before. Neither is lost then, and no service is held up.
    /// </summary>
    internal static string Free(string ended)
    {
        var (name, n) = (ended, 2);
        for (; Path.Exists(name); n++)
        {
            name = $"{ended[..^Extension.Length]}.{n.ToString(CultureInfo.InvariantCulture)}{Extension}";
        }

        return name;
    }

    private static long First(string path) =>
        long.TryParse(Path.GetFileName(path).Split('-')[0], NumberStyles.None, CultureInfo.InvariantCulture, out var first) ? first : 0;
}

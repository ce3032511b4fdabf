using System.Globalization;
using Microsoft.Data.Sqlite;

namespace Stockseat.Ledger.Store;

/// <summary>The ledgers of a data folder that have ended and that nobody has moved away. They never change again.</summary>
public static class ClosedLedgers
{
    /// <summary>The folder that they are in, within the data folder.</summary>
    public const string Folder = "closed";

    private const string Extension = ".db";

    /// <summary>The end of the name while the new ledger is not yet in its place.</summary>
    private const string EndingMark = ".ending";

    /// <summary>The end of the name while a reader keeps the end of the log from being copied; the log is beside the file then.</summary>
    private const string HeldMark = ".held";

    /// <summary>
    /// The files, sorted by their first serials, with which their names begin; of several with the same first serial, the one that was closed last comes last.
    /// </summary>
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

    /// <summary>An entry of one of them; null when no ledger that is still there has it, or when it can't be read.</summary>
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
            return null; // Damage in a closed ledger must not stop the current one.
        }
    }

    /// <summary>The request ids above a serial, in order; none from a file that can't be read.</summary>
    internal static IReadOnlyList<(string? Client, string Request, long Serial)> Requests(string data, long above) =>
        Above(data, above, c => RequestQueries.Of(c, above)); // A retry of an ask in a ledger that can't be read is decided as a new ask.

    /// <summary>The results of a search in all that have entries above a serial, in order; none from a file that can't be read.</summary>
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
                // Damage in a closed ledger must not stop the current one.
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

    /// <summary>The name of the file of a closed ledger.</summary>
    internal static string Name(string data, long first, string? ledger) =>
        Path.Combine(data, Folder, $"{first.ToString(CultureInfo.InvariantCulture)}-{ledger ?? "unnamed"}{Extension}");

    /// <summary>The files of unfinished rolls, in order; after the last of them the new ledger may not be in its place yet.</summary>
    internal static IEnumerable<string> Leaving(string data) => Of(data).Select(f => f.Path).Where(IsLeaving);

    /// <summary>The name of a file while it leaves its place.</summary>
    internal static string Leaving(string data, long first, string? ledger, bool held) => Name(data, first, ledger) + (held ? HeldMark : EndingMark);

    /// <summary>The last file and how many there are: when this changes, the ledger has rolled over, or is about to.</summary>
    internal static (int Count, string? Path) Newest(string data) => Of(data) is { Count: > 0 } all ? (all.Count, all[^1].Path) : (0, null);

    /// <summary>Whether a roll is not finished with it: its name still has a mark.</summary>
    internal static bool IsLeaving(string path) => path.EndsWith(Extension + EndingMark, StringComparison.Ordinal) || IsHeld(path);

    /// <summary>Whether its log is beside it.</summary>
    internal static bool IsHeld(string path) => path.EndsWith(Extension + HeldMark, StringComparison.Ordinal);

    /// <summary>Its name without the mark.</summary>
    public static string Ended(string leaving) => IsLeaving(leaving) ? leaving[..leaving.LastIndexOf('.')] : leaving;

    /// <summary>
    /// A name that no other file has. Somebody may have put back an older ledger that had already rolled over: then neither file is lost, and the service is
    /// not held up.
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

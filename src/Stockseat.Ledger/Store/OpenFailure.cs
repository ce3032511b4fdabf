using Microsoft.Data.Sqlite;

namespace Stockseat.Ledger.Store;

/// <summary>
/// Which failures to open a ledger may go away on their own. A damaged or foreign file, another version, foreign tables, a lock or missing rights do not.
/// </summary>
internal static class OpenFailure
{
    private const int Busy = 5;
    private const int InputOutput = 10;
    private const int Full = 13;
    private const int CantOpen = 14;

    /// <summary>EIO, ENOSPC and EDQUOT on Linux, and the two codes that Windows has for a full disk, in the form in which .NET passes them on.</summary>
    private static readonly int[] Disk = [5, 28, 122, unchecked((int)0x80070027), unchecked((int)0x80070070)];

    /// <summary>Whether the disk is full or has failed.</summary>
    public static bool IsOfTheDisk(Exception e) => e is IOException && Disk.Contains(e.HResult);

    /// <summary>Whether trying again may help.</summary>
    /// <param name="e">The failure.</param>
    /// <param name="folder">The data folder.</param>
    public static bool MayPass(Exception e, string folder) => e switch
    {
        SqliteException { SqliteErrorCode: Busy or InputOutput or Full } => true,
        SqliteException { SqliteErrorCode: CantOpen } => !HasRoomForAFile(folder), // SQLite reports missing rights in the same way.
        _ => e is IOException and not (FileNotFoundException or DirectoryNotFoundException or ForeignTablesException),
    };

    private static bool HasRoomForAFile(string folder)
    {
        try
        {
            using var file = new FileStream(Path.Combine(folder, "room.part"), FileMode.Create, FileAccess.Write, FileShare.None, 1, FileOptions.DeleteOnClose);
            return true;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return !IsOfTheDisk(e);
        }
    }
}

using Microsoft.Data.Sqlite;

namespace Stockseat.Ledger.Store;

/// <summary>
/// Which failures to open a ledger may pass by themselves. A damaged or foreign file, another version, foreign tables, a lock or missing rights don't.
/// </summary>
internal static class OpenFailure
{
    private const int Busy = 5;
    private const int InputOutput = 10;
    private const int Full = 13;
    private const int CantOpen = 14;

    /// <summary>EIO, ENOSPC and EDQUOT of Linux, and Windows' two words for a full disk, as .NET hands them on.</summary>
    private static readonly int[] Disk = [5, 28, 122, unchecked((int)0x80070027), unchecked((int)0x80070070)];

    /// <summary>Whether the disk is full, or failed.</summary>
    public static bool IsOfTheDisk(Exception e) => e is IOException && Disk.Contains(e.HResult);

    /// <summary>Whether trying again may help.</summary>
    /// <param name="e">What opening the ledger failed with.</param>
    /// <param name="folder">The data folder.</param>
    public static bool MayPass(Exception e, string folder) => e switch
    {
        SqliteException { SqliteErrorCode: Busy or InputOutput or Full } => true,
        SqliteException { SqliteErrorCode: CantOpen } => !HasRoomForAFile(folder), // SQLite says the same of missing rights.
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

using System.Runtime.InteropServices;

namespace Stockseat.Ledger.Store;

/// <summary>Syncs a folder, so that the names in it survive a power cut. SQLite tries it too, but ignores a failure.</summary>
public static partial class DirectorySync
{
    public static void Sync(string folder)
    {
        if (OperatingSystem.IsWindows())
        {
            return; // NTFS journals names; it has no such call.
        }

        var handle = Open(folder, 0);
        if (handle < 0)
        {
            throw new IOException($"the data folder {folder} can't be opened to sync it (errno {Marshal.GetLastPInvokeError()})");
        }

        try
        {
            if (Sync(handle) != 0)
            {
                throw new IOException($"the data folder {folder} can't be synced (errno {Marshal.GetLastPInvokeError()})");
            }
        }
        finally
        {
            _ = Close(handle);
        }
    }

    [LibraryImport("libc", EntryPoint = "open", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static partial int Open(string path, int flags);

    [LibraryImport("libc", EntryPoint = "fsync", SetLastError = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static partial int Sync(int handle);

    [LibraryImport("libc", EntryPoint = "close", SetLastError = true)]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static partial int Close(int handle);
}

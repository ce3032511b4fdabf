using Stockseat.Fixtures.Files;

namespace Stockseat.Ledger.Store;

/// <summary>One service per data folder: a lock of the operating system, which is released when the process is killed.</summary>
public sealed class FolderLock : IDisposable
{
    private const string Name = "service.lock";

    /// <summary>How often locking is tried again when the file loses its name meanwhile.</summary>
    private const int Attempts = 10;

    private readonly FileStream _file;
    private readonly string _path;
    private readonly FileFacts? _open;

    private FolderLock(FileStream file) => (_file, _path, _open) = (file, file.Name, FileFacts.Of(file.SafeFileHandle));

    /// <summary>Whether the lock file still has its name. Without it another service can take the folder. On Windows an open file can't be removed.</summary>
    internal bool IsNamed => _open is not { } open || (FileFacts.Of(_path) is { } named && named.SameFile(open));

    /// <summary>Takes the lock.</summary>
    /// <exception cref="IOException">Another service holds it, the folder can't be written, or the disk is full.</exception>
    public static FolderLock Take(string folder)
    {
        Directory.CreateDirectory(folder);
        var path = Path.Combine(folder, Name);
        try
        {
            for (var i = 0; i < Attempts; i++)
            {
                var taken = new FolderLock(new(path, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None));
                if (taken.IsNamed)
                {
                    return taken;
                }

                taken.Dispose(); // The file was removed after it was opened and before it was locked: the next service would lock another file.
            }

            throw new IOException($"{path} keeps being removed; find out which program removes it");
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException && !OpenFailure.IsOfTheDisk(e))
        {
            throw new IOException(
                $"the data folder {Path.GetFullPath(folder)} can't be locked: another service uses it, or this user may not write there; stop the other "
                + $"service, or name another folder with --data", e);
        }
    }

    /// <summary>Whether a service may be running in a folder: it holds the lock, or this user can't find out.</summary>
    public static bool IsTaken(string folder)
    {
        try
        {
            var path = Path.Combine(folder, Name);
            if (File.Exists(path))
            {
                using var look = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.Read);
            }

            return false;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return true;
        }
    }

    /// <summary>Releases the lock.</summary>
    public void Dispose() => _file.Dispose();
}

using Stockseat.Fixtures.Files;

namespace Stockseat.Ledger.Store;

/// <summary>One service a data folder: a lock of the operating system, which a killed process gives back.</summary>
public sealed class FolderLock : IDisposable
{
    private const string Name = "service.lock";

    /// <summary>How often it is taken again when its file loses its name meanwhile.</summary>
    private const int Attempts = 10;

    private readonly FileStream _file;
    private readonly string _path;
    private readonly FileFacts? _open;

    private FolderLock(FileStream file) => (_file, _path, _open) = (file, file.Name, FileFacts.Of(file.SafeFileHandle));

    /// <summary>Whether its file still has its name. Without it another service can take the folder. An open file can't be removed on Windows.</summary>
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

                taken.Dispose(); // It was removed between its opening and its locking: whoever comes next would have another one.
            }

            throw new IOException($"{path} is removed again and again");
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException && !OpenFailure.IsOfTheDisk(e))
        {
            throw new IOException(
                $"the data folder {Path.GetFullPath(folder)} can't be had alone: another service has it, or this user may not write there; stop the other "
                + $"service, or name another folder with --data", e);
        }
    }

    /// <summary>Whether a service may be at work in a folder: it holds the lock, or this user can't tell.</summary>
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

    /// <summary>Gives the lock back.</summary>
    public void Dispose() => _file.Dispose();
}

namespace Stockseat.Ledger.Writing;

/// <summary>One service a data folder: a lock of the operating system, which a killed process gives back.</summary>
public sealed class FolderLock : IDisposable
{
    private readonly FileStream _file;

    private FolderLock(FileStream file) => _file = file;

    /// <summary>Takes the lock.</summary>
    /// <exception cref="IOException">Another service holds it, the folder can't be written, or the disk is full.</exception>
    public static FolderLock Take(string folder)
    {
        Directory.CreateDirectory(folder);
        var path = Path.Combine(folder, "service.lock");
        try
        {
            return new(new FileStream(path, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException && !Passing.IsOfTheDisk(e))
        {
            throw new IOException($"the data folder {Path.GetFullPath(folder)} can't be had alone: another service has it, or this user may not write there; stop the other service, or name another folder with --data", e);
        }
    }

    /// <summary>Whether a service may be at work in a folder: it holds the lock, or this user can't tell.</summary>
    public static bool IsTaken(string folder)
    {
        try
        {
            var path = Path.Combine(folder, "service.lock");
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

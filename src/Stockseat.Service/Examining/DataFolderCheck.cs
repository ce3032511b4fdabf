using Stockseat.Ledger.Store;
using Stockseat.Service.Ledgers;

namespace Stockseat.Service.Examining;

/// <summary>Whether the ledger's folder can be written, how much room it has, and whether a start would be refused there.</summary>
internal static class DataFolderCheck
{
    private const string About = "data folder";

    /// <summary>Below this a busy hour fills the disk.</summary>
    private const long Little = 1_000_000_000;

    /// <summary>Below this a full disk is near, and every ask is then refused.</summary>
    private const long TooLittle = 100_000_000;

    /// <summary>File systems on another computer: whether a lock or a sync means anything there depends on that computer.</summary>
    private static readonly string[] Far = ["nfs", "nfs4", "cifs", "smb", "smb2", "smb3", "fuse.sshfs", "9p", "afs", "ceph", "glusterfs"];

    public static IEnumerable<Finding> Look(Examined examined)
    {
        var data = examined.Settings.Ledger.Data;
        if (File.Exists(data))
        {
            yield return Finding.Fault(About, $"{data} is a file, and the ledger needs a folder; name another one under Data, or with --data");
            yield break;
        }

        if (!Directory.Exists(data))
        {
            var above = Above(data);
            yield return CanWrite(above) is { } cause
                ? Finding.Advice(About, $"{data} does not exist, and this user can't make it: {cause}; the unit makes it at a start (StateDirectory); "
                    + "without the unit make it, and give it to the service's user")
                : Finding.Good(About, $"{data} does not exist yet; the first start makes it");
            yield return Room(above);
            yield break;
        }

        if (LostLedger.Refusal(data) is { } refusal)
        {
            yield return Finding.Fault(About, refusal);
        }

        yield return CanWrite(data) is { } why
            ? Finding.Fault(About, $"this user can't write {data}: {why}; give the folder to the service's user, or make room")
            : Finding.Good(About, $"{data} can be written{(examined.Runs ? ", and a service is using it" : "")}");
        yield return Room(data);
    }

    /// <summary>The nearest folder above that exists.</summary>
    private static string Above(string folder)
    {
        var above = Path.GetDirectoryName(folder);
        while (above is not null && !Directory.Exists(above))
        {
            above = Path.GetDirectoryName(above);
        }

        return above ?? folder;
    }

    /// <summary>Why a file can't be written and synced there; null: it can. The file is gone at once.</summary>
    private static string? CanWrite(string folder)
    {
        try
        {
            var path = Path.Combine(folder, $"doctor-{Guid.NewGuid():n}.part");
            using var file = new FileStream(path, FileMode.CreateNew, FileAccess.Write, FileShare.None, 1, FileOptions.DeleteOnClose);
            file.Write(new byte[4096]);
            file.Flush(flushToDisk: true);
            return null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return e.Message.TrimEnd('.');
        }
    }

    private static Finding Room(string folder)
    {
        var drive = new DriveInfo(folder);
        if (drive.DriveType == DriveType.Network || Far.Contains(drive.DriveFormat, StringComparer.OrdinalIgnoreCase))
        {
            return Finding.Advice("disk", $"{folder} is on a file system of another computer ({drive.DriveFormat}): a lost connection stops the answers, and "
                + "its locks and syncs are as good as that computer's; keep the ledger on a disk of this one");
        }

        var (free, size) = (drive.AvailableFreeSpace, SizeText.Of(drive.AvailableFreeSpace));
        return free < TooLittle
            ? Finding.Fault("disk", $"{size} are free at {folder}, below {SizeText.Of(TooLittle)}: a full disk refuses every ask; make room")
            : free < Little ? Finding.Advice("disk", $"{size} are free at {folder}, below {SizeText.Of(Little)}; make room, or move closed ledgers away")
            : Finding.Good("disk", $"{size} are free at {folder}");
    }
}

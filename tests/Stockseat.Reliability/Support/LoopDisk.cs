using System.Globalization;
using Stockseat.EndToEnd.Support;
using Stockseat.Tests.Support;

namespace Stockseat.Reliability.Support;

/// <summary>An ext4 file system in a file, mounted through a loop device: after a power cut, a disk would have the content of that file.</summary>
internal sealed class LoopDisk : IAsyncDisposable
{
    private const long Bytes = 96L << 20;

    private readonly string _image;
    private readonly string _device;
    private readonly string _folder;
    private bool _mounted;

    private LoopDisk(string image, string device, string folder) => (_image, _device, _folder) = (image, device, folder);

    /// <summary>Whether the image was opened so as to bypass the page cache; then the file has no cache of its own.</summary>
    public bool IsDirect { get; private init; }

    /// <summary>Makes an empty file system with the usual options; skips the test where that isn't possible.</summary>
    public static async Task<LoopDisk> Make(string image, string folder)
    {
        Needs.Root();
        Needs.Programs("losetup", "mkfs.ext4", "mount", "umount", "dumpe2fs", "cp");
        await using (var file = File.Create(image))
        {
            file.SetLength(Bytes);
        }

        // Not lazily: the kernel would keep writing tables in the background.
        await Needs.Run("mkfs.ext4", "-q", "-F", "-E", "lazy_itable_init=0,lazy_journal_init=0", image);
        try
        {
            return await Mount(image, folder);
        }
        catch (InvalidOperationException e)
        {
            Assert.Skip($"no file system can be mounted here: {e.Message}");
            throw;
        }
    }

    /// <summary>Mounts an image; the kernel replays its journal, as after a power cut.</summary>
    public static async Task<LoopDisk> Mount(string image, string folder)
    {
        var (device, direct) = await Attach(image);
        var disk = new LoopDisk(image, device, folder) { IsDirect = direct };
        try
        {
            Directory.CreateDirectory(folder);
            await Needs.Run("mount", "-t", "ext4", device, folder);
            disk._mounted = true;
            return disk;
        }
        catch
        {
            await disk.DisposeAsync();
            throw;
        }
    }

    /// <summary>Whether an image was never unmounted: its journal has to be replayed.</summary>
    public static async Task<bool> WasCut(string image) =>
        (await Needs.Run("dumpe2fs", "-h", image)).Contains("needs_recovery", StringComparison.Ordinal);

    /// <summary>Copies the image as it is, without a sync, between two writes of the kernel; copies again when a write came in between.</summary>
    public async Task Copy(string to) => await Deadline.Until(async () =>
    {
        var (written, underWay) = Writes();
        await Needs.Run("cp", "--sparse=always", _image, to);
        return underWay == 0 && Writes() == (written, 0);
    }, "a copy of the image without a write meanwhile");

    public async ValueTask DisposeAsync()
    {
        try
        {
            if (_mounted)
            {
                // A process that has just ended may keep it busy for another moment.
                await Deadline.Until(async () => (await Tool.Run("umount", [_folder])).ExitCode == 0, $"the unmounting of {_folder}");
            }
        }
        finally
        {
            await Needs.Run("losetup", "--detach", _device);
            File.Delete(_image);
        }
    }

    private static async Task<(string Device, bool Direct)> Attach(string image)
    {
        try
        {
            return (await Needs.Run("losetup", "--find", "--show", "--direct-io=on", image), true);
        }
        catch (InvalidOperationException)
        {
            return (await Needs.Run("losetup", "--find", "--show", image), false);
        }
    }

    /// <summary>The device's completed writes, and its requests under way.</summary>
    private (long Ended, long UnderWay) Writes()
    {
        var fields = File.ReadAllText($"/sys/block/{Path.GetFileName(_device)}/stat").Split(' ', StringSplitOptions.RemoveEmptyEntries);
        return (long.Parse(fields[4], CultureInfo.InvariantCulture), long.Parse(fields[8], CultureInfo.InvariantCulture));
    }
}

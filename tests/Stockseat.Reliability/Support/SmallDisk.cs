using Stockseat.EndToEnd.Support;
using Stockseat.Tests.Support;

namespace Stockseat.Reliability.Support;

/// <summary>A small file system that can be filled to the last byte.</summary>
internal sealed class SmallDisk : IAsyncDisposable
{
    private const long Bytes = 16L << 20;

    private readonly string _folder;

    private SmallDisk(string folder) => _folder = folder;

    private string Ballast => Path.Combine(_folder, "ballast");

    /// <summary>Makes one; skips the test where that isn't possible.</summary>
    /// <param name="kind">tmpfs or ext4.</param>
    /// <param name="image">Where the file system's image may lie.</param>
    /// <param name="folder">Where it is mounted.</param>
    public static async Task<SmallDisk> Make(string kind, string image, string folder)
    {
        Needs.Root();
        Needs.Programs("mkfs.ext4", "mount", "umount");
        Directory.CreateDirectory(folder);
        try
        {
            if (kind == "tmpfs")
            {
                await Needs.Run("mount", "-t", kind, "-o", $"size={Bytes}", kind, folder);
            }
            else
            {
                await using (var file = File.Create(image))
                {
                    file.SetLength(Bytes);
                }

                await Needs.Run($"mkfs.{kind}", "-q", "-F", image);
                await Needs.Run("mount", "-t", kind, "-o", "loop", image, folder);
            }
        }
        catch (InvalidOperationException e)
        {
            Assert.Skip($"no file system can be mounted here: {e.Message}");
        }

        return new(folder);
    }

    /// <summary>Fills the disk: not a single byte more can be written.</summary>
    public void Fill()
    {
        using var file = new FileStream(Ballast, FileMode.Append, FileAccess.Write, FileShare.None, bufferSize: 0);
        for (var block = 1 << 20; block > 0; block /= 2)
        {
            try
            {
                while (true)
                {
                    file.Write(new byte[block]);
                }
            }
            catch (IOException)
            {
                // Smaller pieces may still fit.
            }
        }

        file.Flush(flushToDisk: true);
        Assert.Throws<IOException>(() => file.Write(new byte[1])); // Not everything that ext4 calls free can be used.
    }

    /// <summary>Makes room.</summary>
    public void Empty() => File.Delete(Ballast);

    public async ValueTask DisposeAsync() =>
        await Deadline.Until(async () => (await Tool.Run("umount", [_folder])).ExitCode == 0, $"the unmounting of {_folder}");
}

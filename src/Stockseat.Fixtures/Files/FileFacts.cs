using System.Buffers.Binary;
using System.Runtime.InteropServices;
using System.Text;
using Microsoft.Win32.SafeHandles;

namespace Stockseat.Fixtures.Files;

/// <summary>
/// What the operating system knows about a file: which file it is, whatever its name, and of which kind. Linux only; elsewhere nothing is known.
/// </summary>
/// <param name="Device">The device that it is on.</param>
/// <param name="Inode">Its number on that device.</param>
/// <param name="IsRegular">Whether it is a regular file, and not a folder, pipe, socket or device.</param>
/// <param name="Bytes">How large it is.</param>
/// <param name="ChangedNanoseconds">When its content was last changed, in nanoseconds since 1970.</param>
public readonly record struct FileFacts(ulong Device, ulong Inode, bool IsRegular, long Bytes, long ChangedNanoseconds)
{
    private const int KindMask = 0xF000;
    private const int RegularKind = 0x8000;

    /// <summary>Whether both are facts about the same file.</summary>
    public bool SameFile(FileFacts other) => (Device, Inode) == (other.Device, other.Inode);

    /// <summary>Looks a name up, following links. It opens nothing, so nothing can block it except the file system itself.</summary>
    /// <param name="path">The name.</param>
    /// <returns>Null when there is no such file, when nothing can be learned about it, or when this is not Linux.</returns>
    public static FileFacts? Of(string path) => OperatingSystem.IsLinux() ? Ask(Native.CurrentFolder, Native.Text(path), 0) : null;

    /// <summary>Looks an open file up; null when this is not Linux.</summary>
    public static FileFacts? Of(SafeFileHandle file) => OperatingSystem.IsLinux() ? Ask((int)file.DangerousGetHandle(), [0], Native.EmptyPath) : null;

    private static FileFacts? Ask(int folder, byte[] path, int flags)
    {
        var facts = new byte[Native.FactsSize];
        if (Native.statx(folder, path, flags, Native.BasicFacts, facts) != 0)
        {
            return null;
        }

        ulong Whole(int at) => BinaryPrimitives.ReadUInt64LittleEndian(facts.AsSpan(at));
        uint Half(int at) => BinaryPrimitives.ReadUInt32LittleEndian(facts.AsSpan(at));
        return new(
            ((ulong)Half(136) << 32) | Half(140), Whole(32), (BinaryPrimitives.ReadUInt16LittleEndian(facts.AsSpan(28)) & KindMask) == RegularKind,
            (long)Whole(40), ((long)Whole(112) * 1_000_000_000) + Half(120));
    }

    /// <summary>
    /// Linux's own calls: the framework has no call for the number of a file, and none that opens a file without waiting. Offsets and values are those of the
    /// kernel's interface, which never change.
    /// </summary>
    internal static class Native
    {
        public const int CurrentFolder = -100;
        public const int EmptyPath = 0x1000;
        public const uint BasicFacts = 0x7FF;
        public const int FactsSize = 256;

        /// <summary>
        /// Flags of open: read only; don't wait for a writer of a pipe or for a device; don't pass the file on to children; take no terminal as ours.
        /// </summary>
        public const int ReadWithoutWaiting = 0x800 | 0x80000 | 0x100;

        public static byte[] Text(string path) => Encoding.UTF8.GetBytes(path + '\0');

        [DllImport("libc", SetLastError = true)]
        public static extern int statx(int folder, byte[] path, int flags, uint mask, byte[] facts);

        /// <summary>
        /// Whether another program has locked the file for itself alone, as .NET does when it opens a file. While the file is open here, no other program can
        /// lock it.
        /// </summary>
        public static bool IsAnothers(SafeFileHandle file)
        {
            const int Shared = 1, DoNotWait = 4, WouldBlock = 11;
            return flock((int)file.DangerousGetHandle(), Shared | DoNotWait) != 0 && Marshal.GetLastPInvokeError() == WouldBlock;
        }

        [DllImport("libc", SetLastError = true)]
        private static extern int flock(int file, int what);

        [DllImport("libc", SetLastError = true)]
        public static extern int open(byte[] path, int flags, int mode);
    }
}

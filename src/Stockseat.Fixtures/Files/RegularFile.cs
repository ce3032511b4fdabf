using System.Globalization;
using System.Runtime.InteropServices;
using Microsoft.Win32.SafeHandles;

namespace Stockseat.Fixtures.Files;

/// <summary>
/// Reads files that others may have put there: regular files only, opened without waiting, and no more bytes than stated. A pipe, a socket or a
/// device in the place of a file would keep its reader for ever.
/// </summary>
public static class RegularFile
{
    /// <summary>Reads a whole file.</summary>
    /// <param name="path">The file; links are followed.</param>
    /// <param name="longest">The most bytes that it may have.</param>
    /// <exception cref="FileNotFoundException">There is none.</exception>
    /// <exception cref="IOException">It is not a regular file, is larger, or can't be read. The message names it.</exception>
    /// <exception cref="UnauthorizedAccessException">This user may not read it.</exception>
    public static byte[] Read(string path, long longest)
    {
        using var file = Open(path);
        var length = RandomAccess.GetLength(file);
        if (length > longest)
        {
            throw new IOException(string.Create(CultureInfo.InvariantCulture, $"{path} has {length} bytes; at most {longest} are read: name the right file, or make it smaller"));
        }

        var bytes = new byte[length];
        var read = 0;
        for (int more; read < bytes.Length && (more = RandomAccess.Read(file, bytes.AsSpan(read), read)) > 0; read += more)
        {
        }

        return read == bytes.Length ? bytes : bytes[..read];
    }

    /// <summary>Opens a regular file for reading; whoever writes, renames or deletes it meanwhile is not hindered.</summary>
    /// <param name="path">The file; links are followed.</param>
    /// <exception cref="IOException">As <see cref="Read"/>.</exception>
    public static SafeFileHandle Open(string path)
    {
        if (!OperatingSystem.IsLinux())
        {
            var attributes = File.GetAttributes(path);
            return (attributes & (FileAttributes.Directory | FileAttributes.Device)) == 0
                ? File.OpenHandle(path, share: FileShare.ReadWrite | FileShare.Delete)
                : throw NotRegular(path);
        }

        var number = FileFacts.Native.open(FileFacts.Native.Text(path), FileFacts.Native.ReadWithoutWaiting, 0);
        if (number < 0)
        {
            throw Failed(path, Marshal.GetLastPInvokeError());
        }

        var file = new SafeFileHandle(number, ownsHandle: true);
        if (FileFacts.Of(file) is { IsRegular: true })
        {
            return file;
        }

        file.Dispose();
        throw NotRegular(path);
    }

    private static IOException NotRegular(string path) => new($"{path} is not a regular file (it is a folder, a pipe, a socket or a device); put a file there, or move it away");

    private static Exception Failed(string path, int error)
    {
        const int NoEntry = 2, NoAccess = 13, NotPermitted = 1, NoDevice = 6;
        return error switch
        {
            NoEntry => new FileNotFoundException($"{path} is not there", path),
            NoAccess or NotPermitted => new UnauthorizedAccessException($"this user may not read {path}"),
            NoDevice => NotRegular(path), // a socket
            _ => new IOException($"{path} can't be opened: {Marshal.GetPInvokeErrorMessage(error)}", error),
        };
    }
}

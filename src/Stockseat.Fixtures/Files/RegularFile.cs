using System.Globalization;
using System.Runtime.InteropServices;
using Microsoft.Win32.SafeHandles;

namespace Stockseat.Fixtures.Files;

/// <summary>
/// Reads files that others may have put there: only regular files, opened without waiting, and no more bytes than a stated number. A pipe, a socket or a device
/// in the place of a file would make its reader wait for ever.
/// </summary>
public static class RegularFile
{
    /// <summary>Reads a whole file.</summary>
    /// <param name="path">The file; links are followed.</param>
    /// <param name="longest">The most bytes that it may have.</param>
    /// <exception cref="FileNotFoundException">There is no such file.</exception>
    /// <exception cref="IOException">It is not a regular file, is larger, or can't be read. The message names it.</exception>
    /// <exception cref="UnauthorizedAccessException">This user may not read it.</exception>
    public static byte[] Read(string path, long longest)
    {
        using var file = Open(path);
        return Read(file, path, longest);
    }

    /// <summary>Reads a whole file that is open.</summary>
    /// <param name="file">The file, from <see cref="Open"/>.</param>
    /// <param name="path">Its name, for messages.</param>
    /// <param name="longest">The most bytes that it may have.</param>
    /// <exception cref="IOException">It is larger, or can't be read. The message names it.</exception>
    public static byte[] Read(SafeFileHandle file, string path, long longest)
    {
        long length;
        try
        {
            length = RandomAccess.GetLength(file);
        }
        catch (NotSupportedException)
        {
            throw NotRegular(path); // Some of the kernel's own files only look like regular files.
        }

        if (length > longest)
        {
            throw new IOException(string.Create(CultureInfo.InvariantCulture, $"{path} has {length} bytes; at most {longest} are allowed"));
        }

        var bytes = new byte[length];
        var read = 0;
        for (int more; read < bytes.Length && (more = RandomAccess.Read(file, bytes.AsSpan(read), read)) > 0; read += more)
        {
        }

        return read == bytes.Length ? bytes : bytes[..read];
    }

    /// <summary>Opens a regular file for reading. Other programs can write, rename or delete it meanwhile.</summary>
    /// <param name="path">The file; links are followed.</param>
    /// <exception cref="IOException">For the same reasons as <see cref="Read(string, long)"/>.</exception>
    public static SafeFileHandle Open(string path)
    {
        if (!OperatingSystem.IsLinux())
        {
            var attributes = File.GetAttributes(path);
            return (attributes & (FileAttributes.Directory | FileAttributes.Device)) == 0
                ? File.OpenHandle(path, share: FileShare.ReadWrite | FileShare.Delete)
                : throw NotRegular(path);
        }

        if (FileFacts.Of(path) is { IsRegular: false })
        {
            throw NotRegular(path); // Before the file is opened: just opening a device may do something.
        }

        var number = FileFacts.Native.open(FileFacts.Native.Text(path), FileFacts.Native.ReadWithoutWaiting, 0);
        if (number < 0)
        {
            throw Failed(path, Marshal.GetLastPInvokeError());
        }

        var file = new SafeFileHandle(number, ownsHandle: true);
        var regular = FileFacts.Of(file) is { IsRegular: true };
        if (regular && !FileFacts.Native.IsAnothers(file))
        {
            return file;
        }

        file.Dispose();
        throw regular
            ? new IOException($"{path} can't be read: another program has locked it; end that program, or wait until it has finished writing")
            : NotRegular(path);
    }

    /// <summary>The exception of a reader as a fault of the file: the name of the file, a colon, and what is wrong.</summary>
    /// <param name="path">The file.</param>
    /// <param name="met">The exception that <see cref="Read(string, long)"/> or <see cref="Open"/> threw.</param>
    public static string Fault(string path, Exception met) => $"{path}: {What(path, met)}";

    /// <summary>The same without the name, for a message that already has it.</summary>
    public static string What(string path, Exception met)
    {
        var said = met.Message.TrimEnd('.');
        return said.StartsWith($"{path} ", StringComparison.Ordinal) ? said[(path.Length + 1)..] : $"can't be read: {said}";
    }

    private static IOException NotRegular(string path) => new(
        $"{path} is not a regular file (it is a folder, a pipe, a socket or a device); put a file there, or move it away");

    private static Exception Failed(string path, int error)
    {
        const int NoEntry = 2, NoAccess = 13, NotPermitted = 1, NoDevice = 6;
        return error switch
        {
            NoEntry => new FileNotFoundException($"{path} can't be read: it does not exist, or it is a link to something that does not exist", path),
            NoAccess or NotPermitted => new UnauthorizedAccessException($"{path} can't be read: this user has no permission"),
            NoDevice => NotRegular(path), // a socket
            _ => new IOException($"{path} can't be read: {Marshal.GetPInvokeErrorMessage(error)}", error),
        };
    }
}

using System.Text;

namespace Stockseat.Fixtures.Files;

/// <summary>
/// A file that is written beside its place and put there when it is whole: nobody ever sees half of it. The name that it has meanwhile is none that a
/// revision's file can have, so a service that watches its folder does not take it for one.
/// </summary>
public sealed class NewFile : IDisposable
{
    private readonly string _path;
    private readonly string _half;
    private readonly bool _over;
    private readonly FileStream _file;

    private NewFile(string path, bool over)
    {
        (_path, _half, _over) = (path, $"{path}.{Guid.NewGuid():N}.part", over);
        _file = new(_half, FileMode.CreateNew, FileAccess.Write, FileShare.None);
        Text = new(_file, new UTF8Encoding(encoderShouldEmitUTF8Identifier: false), bufferSize: 1 << 16);
    }

    /// <summary>Where its text goes.</summary>
    public StreamWriter Text { get; }

    /// <summary>Begins one that is never put in place of another.</summary>
    /// <param name="path">Its place.</param>
    /// <exception cref="IOException">There is a file of that name.</exception>
    public static NewFile Begin(string path) => Path.Exists(path) ? throw Exists(path) : new(path, over: false);

    /// <summary>Writes one that is never put in place of another.</summary>
    /// <param name="path">Its place.</param>
    /// <param name="bytes">All of it.</param>
    /// <exception cref="IOException">There is a file of that name, or it can't be written.</exception>
    public static void Write(string path, ReadOnlySpan<byte> bytes) => Begin(path).WriteAll(bytes);

    /// <summary>Writes one, in place of an older one where there is one.</summary>
    /// <param name="path">Its place; a link leads to it.</param>
    /// <param name="bytes">All of it.</param>
    /// <exception cref="IOException">It can't be written.</exception>
    public static void Replace(string path, ReadOnlySpan<byte> bytes) =>
        new NewFile(new FileInfo(path).LinkTarget is null ? path : File.ResolveLinkTarget(path, returnFinalTarget: true)!.FullName, over: true).WriteAll(bytes);

    /// <summary>Puts it in its place, on the disk.</summary>
    /// <exception cref="IOException">There is a file of that name by now, or it can't be written.</exception>
    public void Finish()
    {
        Text.Flush();
        _file.Flush(flushToDisk: true);
        Text.Dispose();
        if (!_over && Path.Exists(_path))
        {
            throw Exists(_path);
        }

        File.Move(_half, _path, _over);
    }

    /// <summary>Removes what was not finished.</summary>
    public void Dispose()
    {
        try
        {
            Text.Dispose();
        }
        catch (IOException)
        {
            // A full disk takes no rest of it; it is removed.
        }

        _file.Dispose();
        try
        {
            File.Delete(_half);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // What could not be written can't always be removed; why it could not be written is what counts.
        }
    }

    private void WriteAll(ReadOnlySpan<byte> bytes)
    {
        using (this)
        {
            _file.Write(bytes);
            Finish();
        }
    }

    private static IOException Exists(string path) => new($"{path} is there already and is not written over; name another file");
}

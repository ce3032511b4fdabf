using System.Text;

namespace Stockseat.Fixtures.Files;

/// <summary>
/// A file that is written beside its place, and moved there when it is complete: nobody ever sees half of it. Its temporary name is one that no file of a
/// revision can have, so a service that watches the folder does not take it for a revision.
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

    /// <summary>The text of the file is written here.</summary>
    public StreamWriter Text { get; }

    /// <summary>Begins a file that never takes the place of another.</summary>
    /// <param name="path">Its place.</param>
    /// <exception cref="IOException">There is a file of that name.</exception>
    public static NewFile Begin(string path) => Path.Exists(path) ? throw Exists(path) : new(path, over: false);

    /// <summary>Writes a file that never takes the place of another.</summary>
    /// <param name="path">Its place.</param>
    /// <param name="bytes">Its whole content.</param>
    /// <exception cref="IOException">There is a file of that name, or it can't be written.</exception>
    public static void Write(string path, ReadOnlySpan<byte> bytes) => Begin(path).WriteAll(bytes);

    /// <summary>Writes a file, in the place of an older one where there is one.</summary>
    /// <param name="path">Its place; a link is followed.</param>
    /// <param name="bytes">Its whole content.</param>
    /// <exception cref="IOException">It can't be written.</exception>
    public static void Replace(string path, ReadOnlySpan<byte> bytes) =>
        new NewFile(new FileInfo(path).LinkTarget is null ? path : File.ResolveLinkTarget(path, returnFinalTarget: true)!.FullName, over: true).WriteAll(bytes);

    /// <summary>Moves the file to its place, and makes sure that it is on the disk.</summary>
    /// <exception cref="IOException">By now there is a file of that name, or this one can't be written.</exception>
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

    /// <summary>Removes the file when it was not finished.</summary>
    public void Dispose()
    {
        try
        {
            Text.Dispose();
        }
        catch (IOException)
        {
            // A full disk can't take the rest of it; the file is removed.
        }

        _file.Dispose();
        try
        {
            File.Delete(_half);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // A file that could not be written can't always be removed either; the fault that counts is why it could not be written.
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

    private static IOException Exists(string path) => new($"{path} already exists and is never overwritten; name another file");
}

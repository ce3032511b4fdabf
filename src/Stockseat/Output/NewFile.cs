using System.Text;

namespace Stockseat.Cli.Output;

/// <summary>A file that is written beside its place and put there when it is whole, never over another one.</summary>
internal sealed class NewFile : IDisposable
{
    private readonly string _path;
    private readonly string _half;
    private readonly FileStream _file;

    private NewFile(string path)
    {
        _path = path;
        _half = $"{path}.{Guid.NewGuid():N}.part";
        _file = new(_half, FileMode.CreateNew, FileAccess.Write);
        Text = new(_file, new UTF8Encoding(encoderShouldEmitUTF8Identifier: false), bufferSize: 1 << 16);
    }

    /// <summary>Where its text goes.</summary>
    public StreamWriter Text { get; }

    /// <summary>Begins one.</summary>
    /// <exception cref="IOException">There is a file of that name.</exception>
    public static NewFile Begin(string path) => Taken(path) ? throw Exists(path) : new(path);

    /// <summary>Puts it in its place, on the disk.</summary>
    public void Finish()
    {
        Text.Flush();
        _file.Flush(flushToDisk: true);
        Text.Dispose();
        if (Taken(_path))
        {
            throw Exists(_path);
        }

        File.Move(_half, _path, overwrite: false);
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
        File.Delete(_half);
    }

    private static bool Taken(string path) => Path.Exists(path);

    private static IOException Exists(string path) => new($"{path} is there already and is not written over; name another file");
}

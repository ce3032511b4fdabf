using System.Globalization;

namespace Stockseat.Fixtures.Calibration;

/// <summary>Puts a new revision's file into its fixture's folder: whole or not at all, and never over one that is there.</summary>
public static class NewRevisionFile
{
    /// <summary>The path of a number's file.</summary>
    public static string Path(string folder, int number) => System.IO.Path.Combine(folder, string.Create(CultureInfo.InvariantCulture, $"r{number:0000}.json"));

    /// <summary>Writes it.</summary>
    /// <param name="path">Where.</param>
    /// <param name="utf8">The text.</param>
    /// <exception cref="IOException">There is a file of that name, or it can't be written.</exception>
    public static void Write(string path, ReadOnlyMemory<byte> utf8)
    {
        // Not a name that a revision's file can have: a service that watches the folder sees the file only when it is whole.
        var temporary = $"{path}.{Guid.NewGuid():N}.part";
        try
        {
            using (var stream = new FileStream(temporary, FileMode.CreateNew, FileAccess.Write, FileShare.None))
            {
                stream.Write(utf8.Span);
                stream.Flush(flushToDisk: true);
            }

            File.Move(temporary, path, overwrite: false);
        }
        finally
        {
            File.Delete(temporary);
        }
    }
}

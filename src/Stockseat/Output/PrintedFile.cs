using System.Text;

namespace Stockseat.Cli.Output;

/// <summary>Writes a page beside its place and then puts it there: nobody prints half a page.</summary>
internal static class PrintedFile
{
    /// <summary>False when it can't be written, which is then said on stderr.</summary>
    public static bool Write(string path, string text)
    {
        var half = $"{path}.{Guid.NewGuid():N}.part";
        try
        {
            File.WriteAllText(half, text, new UTF8Encoding(encoderShouldEmitUTF8Identifier: false));
            File.Move(half, path, overwrite: true);
            return true;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            Console.Error.WriteLine(Plain.Text($"{path} can't be written: {e.Message}; name another file, or make room there"));
            Remove(half);
            return false;
        }
    }

    private static void Remove(string half)
    {
        try
        {
            File.Delete(half);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // What could not be written can't always be removed; that was said already.
        }
    }
}

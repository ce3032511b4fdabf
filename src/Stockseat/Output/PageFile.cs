using System.Text;
using Stockseat.Fixtures.Files;

namespace Stockseat.Cli.Output;

/// <summary>Writes a page over an older one: nobody prints half a page.</summary>
internal static class PageFile
{
    /// <summary>The exit code. That it can't be written is said on stderr.</summary>
    public static int Write(string path, string text)
    {
        try
        {
            NewFile.Replace(path, Encoding.UTF8.GetBytes(text));
            return ExitCodes.Done;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            Console.Error.WriteLine(Plain.Text($"{path} can't be written: {e.Message}; name another file, or make room there"));
            return ExitCodes.Failed;
        }
    }
}

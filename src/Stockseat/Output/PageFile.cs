using System.Text;
using Stockseat.Fixtures.Files;

namespace Stockseat.Cli.Output;

/// <summary>Writes a page in place of an older one, all of it or nothing: nobody prints half a page.</summary>
internal static class PageFile
{
    /// <summary>Writes a page and returns the exit code. A page that can't be written gives a message on stderr.</summary>
    public static int Write(string path, string text)
    {
        try
        {
            NewFile.Replace(path, Encoding.UTF8.GetBytes(text));
            return ExitCodes.Done;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            Console.Error.WriteLine(Plain.Text($"{path} can't be written: {e.Message.TrimEnd('.')}; name another file, or make room there"));
            return ExitCodes.Failed;
        }
    }
}

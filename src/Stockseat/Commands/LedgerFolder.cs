using System.CommandLine;
using System.Text.Json;
using Microsoft.Data.Sqlite;
using Stockseat.Cli.Output;
using Stockseat.Ledger.Reading;

namespace Stockseat.Cli.Commands;

/// <summary>Reads a ledger from its folder, and says what went wrong.</summary>
internal static class LedgerFolder
{
    public static Option<string?> Option() => Common.Data("the data folder to read, whether its service runs or not; without it the running service is asked");

    /// <summary>Opens and reads it.</summary>
    /// <param name="data">The data folder.</param>
    /// <param name="read">What reads; its exit code is the command's.</param>
    public static int Read(string data, Func<LedgerReader, int> read) => Try(() =>
    {
        using var reader = LedgerReader.Open(data);
        return read(reader);
    });

    /// <summary>The same for a reader that writes while it reads.</summary>
    public static Task<int> Read(string data, Func<LedgerReader, Task<int>> read) => Try(async () =>
    {
        using var reader = LedgerReader.Open(data);
        return await read(reader);
    });

    /// <summary>Says on stderr what can't be read.</summary>
    public static int Try(Func<int> read) => Try(() => Task.FromResult(read())).GetAwaiter().GetResult(); // the task has already completed

    /// <summary>Says on stderr what can't be read.</summary>
    public static async Task<int> Try(Func<Task<int>> read)
    {
        try
        {
            return await read();
        }
        catch (Exception e) when (e is IOException or SqliteException or InvalidDataException or InvalidOperationException or NotSupportedException
            or UnauthorizedAccessException or JsonException)
        {
            Console.Error.WriteLine(Plain.Text($"the ledger could not be read: {e.Message}"));
            return ExitCodes.Failed;
        }
    }
}

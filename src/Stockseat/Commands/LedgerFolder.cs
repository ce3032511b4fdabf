using System.CommandLine;
using System.Text.Json;
using Microsoft.Data.Sqlite;
using Stockseat.Cli.Output;
using Stockseat.Ledger.Reading;

namespace Stockseat.Cli.Commands;

/// <summary>Reads a ledger where it lies, and says what went wrong.</summary>
internal static class LedgerFolder
{
    public static Option<string?> Option() => Common.Data("the data folder to read where it lies, running or stopped; without it the service is asked");

    /// <summary>Opens and reads it.</summary>
    /// <param name="data">The data folder.</param>
    /// <param name="read">What reads; its exit code is the command's.</param>
    public static int Read(string data, Func<LedgerReader, int> read) => Try(() =>
    {
        using var reader = LedgerReader.Open(data);
        return read(reader);
    });

    /// <summary>The same for what writes at its own pace.</summary>
    public static Task<int> Read(string data, Func<LedgerReader, Task<int>> read) => Try(async () =>
    {
        using var reader = LedgerReader.Open(data);
        return await read(reader);
    });

    /// <summary>What can't be read is said on stderr.</summary>
    public static int Try(Func<int> read) => Try(() => Task.FromResult(read())).GetAwaiter().GetResult(); // which is done already

    /// <summary>What can't be read is said on stderr.</summary>
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

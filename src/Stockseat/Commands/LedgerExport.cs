using System.CommandLine;
using System.Text;
using Stockseat.Cli.Client;
using Stockseat.Cli.Output;
using Stockseat.Cli.Usage;
using Stockseat.Fixtures.Files;
using Stockseat.Ledger.Store;

namespace Stockseat.Cli.Commands;

/// <summary>Exports entries as a table for spreadsheets, or with their bodies byte for byte.</summary>
internal static class LedgerExport
{
    public static Command Make()
    {
        var range = new EntryRangeOptions();
        var csv = new Option<bool>("--csv") { Description = "comma-separated values (RFC 4180) with a header row, one row per entry; lengths in metres" };
        var lines = new Option<bool>("--jsonl")
        {
            Description = "one JSON object per line: each body byte for byte with its hash, so that others can check the chain",
        };
        var output = new Option<string?>("--output") { HelpName = "FILE", Description = "a new file to write; without it stdout" };
        var (from, server) = (new LedgerFrom(), Common.Server());
        var command = new ShownCommand(
            "export", "writes entries to a file for other programs, in the order of their serials", "ledger export --csv --output entries.csv",
            "ledger export --jsonl --data data --after 1000")
        { csv, lines, output };
        range.AddTo(command);
        from.AddTo(command);
        command.Options.Add(server);
        command.Validators.Add(r =>
        {
            if (r.GetValue(csv) == r.GetValue(lines))
            {
                r.AddError("either --csv or --jsonl was expected");
            }
        });
        command.SetAction(async (parsed, token) =>
        {
            var (wanted, asCsv, file) = (range.Of(parsed), parsed.GetValue(csv), parsed.GetValue(output));
            return from.IsService(parsed)
                ? await ServiceClient.Run(server.Of(parsed), client => Write(EntrySource.Of(client, wanted, token), asCsv, file, token))
                : await from.Run(parsed, folder => LedgerFolder.Read(
                    folder, reader => Write(EntrySource.Of(reader, wanted).ToAsyncEnumerable(), asCsv, file, token)), token);
        });
        return command;
    }

    private static async Task<int> Write(IAsyncEnumerable<EntryRow> entries, bool csv, string? file, CancellationToken token)
    {
        if (file is null)
        {
            await using var stdout = new StreamWriter(Console.OpenStandardOutput(), new UTF8Encoding(false), 1 << 16);
            await Write(entries, csv, stdout, Plain.OnTerminal, token);
            return ExitCodes.Done;
        }

        try
        {
            using var made = NewFile.Begin(file);
            var count = await Write(entries, csv, made.Text, false, token);
            made.Finish();
            Console.Error.WriteLine(Plain.Text($"{count} entries in {file}"));
            return ExitCodes.Done;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            Console.Error.WriteLine(Plain.Text($"the export could not be written: {e.Message.TrimEnd('.')}"));
            return ExitCodes.Failed;
        }
    }

    private static async Task<long> Write(IAsyncEnumerable<EntryRow> entries, bool csv, TextWriter target, bool onTerminal, CancellationToken token)
    {
        var (count, progress) = (0L, Progress.OnTerminal());
        using var table = csv ? new EntryCsv(target, onTerminal) : null;
        await foreach (var entry in entries.WithCancellation(token))
        {
            if (table is null)
            {
                await target.WriteAsync(EntryLine.Of(entry, onTerminal));
            }
            else
            {
                table.Add(entry);
            }

            progress.Tell(++count, entry.Serial);
        }

        progress.End();
        return count;
    }
}

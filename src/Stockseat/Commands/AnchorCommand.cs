using System.CommandLine;
using System.Text.Json;
using Microsoft.Data.Sqlite;
using Stockseat.Cli.Client;
using Stockseat.Cli.Output;
using Stockseat.Cli.Usage;
using Stockseat.Fixtures.Files;
using Stockseat.Ledger.Seals;
using Stockseat.Ledger.Store;

namespace Stockseat.Cli.Commands;

/// <summary>Prints what to keep outside the machine.</summary>
internal static class AnchorCommand
{
    public static Command Make()
    {
        var output = new Option<string?>("--output") { HelpName = "FILE", Description = "a new file to write; without it stdout; a file is never overwritten" };
        var (data, server) = (LedgerFolder.Option(), Common.Server());
        var command = new ShownCommand(
            "anchor", "prints the newest seal, or the head where there is no seal, to keep outside the machine; a running service first seals all entries",
            "ledger anchor --output anchor.txt")
        {
            output, data, server,
        };
        command.SetAction(async (parsed, _) =>
        {
            var file = parsed.GetValue(output);
            return parsed.GetValue(data) is { } folder
                ? LedgerFolder.Try(() =>
                {
                    using var connection = LedgerFile.OpenReader(folder);
                    return Print(connection, file);
                })
                : await ServiceClient.Run(server.Of(parsed), async client =>
                {
                    var r = await client.Call(token => client.Ledger.AnchorAsync(new(), cancellationToken: token));
                    return Print(new(r.Ledger, r.Serial, r.Hash, r.At, Known(r.Key), Known(r.Signature)), 0, file);
                });
        });
        return command;
    }

    private static int Print(SqliteConnection connection, string? file)
    {
        try
        {
            if ((Anchors.Newest(connection) ?? Anchors.Head(connection)) is { } anchor)
            {
                // The seal's own entry follows the entries that it covers, and needs no seal itself.
                var later = anchor.Signature is null ? 0 : LedgerQueries.Last(connection) - LedgerQueries.SealRow(connection)!.Serial;
                return Print(anchor, later, file);
            }
        }
        catch (JsonException)
        {
            // An entry without a readable body counts as no entry.
        }

        Console.Error.WriteLine(
            "there is nothing to anchor: the ledger has no entry, or the entry is damaged; run stockseat ledger verify --data DIR");
        return ExitCodes.Failed;
    }

    private static int Print(Anchor anchor, long later, string? file)
    {
        if (file is null)
        {
            Console.Out.Write(anchor.ToText());
        }
        else if (!Write(file, anchor.ToText()))
        {
            return ExitCodes.Failed;
        }

        Console.Error.WriteLine(Plain.Text(anchor.Key is { } key
            ? $"this is a seal of entry {anchor.Serial} and all entries before it, by key "
            + $"{key[..Math.Min(12, key.Length)]}{(later == 0 ? "" : $"; {later} {(later == 1 ? "entry" : "entries")} after it not covered")}; keep it "
            + "outside this machine"
            : $"this is the head, entry {anchor.Serial}, without a signature: it reveals a cut tail or an old copy as long as it is kept where nobody can "
            + "change it, outside this machine"));
        return ExitCodes.Done;
    }

    private static bool Write(string file, string text)
    {
        try
        {
            using var made = NewFile.Begin(file);
            made.Text.Write(text);
            made.Finish();
            return true;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            Console.Error.WriteLine(Plain.Text($"{file} can't be written: {e.Message.TrimEnd('.')}; an anchor is never overwritten; name a new file"));
            return false;
        }
    }

    private static string? Known(string text) => text.Length == 0 ? null : text;
}

using System.CommandLine;
using System.Text.Json;
using Microsoft.Data.Sqlite;
using Stockseat.Cli.Client;
using Stockseat.Cli.Output;
using Stockseat.Fixtures.Files;
using Stockseat.Ledger.Seals;
using Stockseat.Ledger.Store;

namespace Stockseat.Cli.Commands;

/// <summary>Prints what to keep outside the machine.</summary>
internal static class AnchorCommand
{
    public static Command Make()
    {
        var output = new Option<string?>("--output") { HelpName = "FILE", Description = "a new file for it, in place of stdout; none is written over" };
        var (data, server) = (LedgerFolder.Option(), Common.Server());
        var command = new Command(
            "anchor", "the newest seal, or without one the head, as a text to keep outside the machine; a service seals first what is unsealed")
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
                : await ServiceClient.Run(parsed.GetValue(server)!, async client =>
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
                // The seal itself comes after what it covers, and needs no other one.
                var later = anchor.Signature is null ? 0 : LedgerQueries.Last(connection) - LedgerQueries.SealRow(connection)!.Serial;
                return Print(anchor, later, file);
            }
        }
        catch (JsonException)
        {
            // An entry that has no readable body is as good as none.
        }

        Console.Error.WriteLine(
            "there is nothing to anchor: the ledger has no entry, or the one to be read is damaged; run stockseat ledger verify --data DIR");
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
            ? $"a seal of entry {anchor.Serial} and all before it, by key "
            + $"{key[..Math.Min(12, key.Length)]}{(later == 0 ? "" : $"; {later} {(later == 1 ? "entry" : "entries")} after it not covered")}; keep it "
            + "outside this machine"
            : $"unsigned, of the head, entry {anchor.Serial}: it shows a cut tail and an old copy as long as it is kept where nobody can change it, outside "
            + "this machine"));
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
            Console.Error.WriteLine(Plain.Text($"{file} can't be written: {e.Message.TrimEnd('.')}; an anchor is never written over, name a new file"));
            return false;
        }
    }

    private static string? Known(string text) => text.Length == 0 ? null : text;
}

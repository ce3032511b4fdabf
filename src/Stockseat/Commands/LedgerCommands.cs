using System.CommandLine;
using System.Text.Json.Nodes;
using Stockseat.Cli.Client;
using Stockseat.Cli.Output;
using Stockseat.Ledger.Verifying;
using Stockseat.Ledger.Writing;
using Stockseat.V1;

namespace Stockseat.Cli.Commands;

internal static class LedgerCommands
{
    private const int MostTail = 1000;

    public static Command Make() => new("ledger", "reads and checks the ledger, of a running service or where it lies") { Tail(), LedgerList.Make(), LedgerExport.Make(), LedgerCopying.Make(), LedgerRoll.Make(), Verify() };

    private static Command Tail()
    {
        var count = new Option<int>("--count") { HelpName = "N", Description = "how many, 1 to 1000", DefaultValueFactory = _ => 20 };
        count.Validators.Add(r =>
        {
            if (r.GetValueOrDefault<int>() is < 1 or > MostTail)
            {
                r.AddError($"--count is {r.GetValueOrDefault<int>()}; 1 to {MostTail} was expected");
            }
        });
        var (data, server, json) = (LedgerFolder.Option(), Common.Server(), Common.Json());
        var follow = new Option<bool>("--follow") { Description = "go on with each entry as it is committed, until it is interrupted" };
        var command = new Command("tail", "the newest entries") { count, follow, data, server, json };
        command.Validators.Add(r =>
        {
            if (r.GetValue(follow) && r.GetValue(data) is not null)
            {
                r.AddError("--follow asks the running service; leave --data out, or list again with ledger list --after SERIAL --data DIR");
            }
        });
        command.SetAction(async (parsed, _) =>
        {
            var n = parsed.GetValue(count);
            if (parsed.GetValue(follow))
            {
                return await ServiceClient.Run(parsed.GetValue(server)!, client => LedgerFollow.Run(client, n, parsed.GetValue(json)));
            }

            var asJson = parsed.GetValue(json);
            return parsed.GetValue(data) is { } folder
                ? LedgerFolder.Read(folder, reader => Print(reader.Newest(n).Select(EntryView.Of), asJson))
                : await ServiceClient.Run(parsed.GetValue(server)!, async client =>
                    Print((await client.Call(token => client.Ledger.ListEntriesAsync(new() { After = -n }, cancellationToken: token))).Entries.Select(EntryView.Of), asJson));
        });
        return command;
    }

    internal static int Print(IEnumerable<EntryView> entries, bool json)
    {
        if (json)
        {
            foreach (var entry in entries)
            {
                Json.Line(entry.ToJson());
            }
        }
        else
        {
            Plain.Table(EntryView.Columns, entries.Select(e => e.ToRow()));
        }

        return ExitCodes.Done;
    }

    private static Command Verify()
    {
        var (data, server, json) = (LedgerFolder.Option(), Common.Server(), Common.Json());
        var command = new Command("verify", "walks the whole chain: 0 whole, 1 not whole, 2 could not be checked") { data, server, json };
        command.SetAction(async (parsed, token) =>
        {
            var asJson = parsed.GetValue(json);
            return parsed.GetValue(data) is { } folder
                ? LedgerFolder.Try(() =>
                {
                    using var connection = LedgerFile.OpenReader(folder);
                    return Print(LedgerVerifier.Verify(connection, token).With(folder), asJson);
                })
                : await ServiceClient.Run(parsed.GetValue(server)!, async client =>
                    Print(Of(await ServiceClient.CallLong(t => client.Ledger.VerifyAsync(new(), cancellationToken: t))), asJson));
        });
        return command;
    }

    private static Verification Of(VerifyResponse r) => new(
        r.Entries, r.Ledger, r.HeadSerial, r.HeadHash, [.. r.Faults.Select(f => new LedgerFault(f.Serial, f.Kind, f.Text))], [.. r.Findings],
        r.Unreadable.Length == 0 ? null : r.Unreadable);

    private static int Print(Verification v, bool json)
    {
        if (json)
        {
            Json.Line(new JsonObject
            {
                ["whole"] = v.Whole,
                ["entries"] = v.Entries,
                ["ledger"] = v.Ledger,
                ["headSerial"] = v.HeadSerial,
                ["headHash"] = v.HeadHash,
                ["faults"] = Json.Array(v.Faults, f => new JsonObject { ["serial"] = f.Serial, ["kind"] = f.Kind, ["text"] = f.Text }),
                ["findings"] = Json.Array(v.Findings, f => JsonValue.Create(f)!),
                ["unreadable"] = v.Unreadable,
            });
            return v.ExitCode;
        }

        foreach (var fault in v.Faults)
        {
            Plain.Line($"fault at entry {fault.Serial}: {fault.Kind}: {fault.Text}");
        }

        if (v.Unreadable is { } unreadable)
        {
            Plain.Line($"could not be checked: {unreadable}");
        }

        Plain.Line(v.ExitCode switch
        {
            0 => $"whole: {v.Entries} entries of ledger {v.Ledger}, head {v.HeadSerial} {v.HeadHash}",
            1 => $"not whole: {v.Faults.Count} fault{(v.Faults.Count == 1 ? "" : "s")} in {v.Entries} entries",
            _ => $"could not be checked: {v.Entries} entries",
        });
        foreach (var finding in v.Findings)
        {
            Plain.Line($"finding: {finding}");
        }

        return v.ExitCode;
    }
}

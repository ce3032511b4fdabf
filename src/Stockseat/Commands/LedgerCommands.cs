using System.CommandLine;
using Microsoft.Data.Sqlite;
using Stockseat.Cli.Client;
using Stockseat.Cli.Output;
using Stockseat.Ledger.Queries;
using Stockseat.Ledger.Writing;
using Stockseat.V1;

namespace Stockseat.Cli.Commands;

internal static class LedgerCommands
{
    private const int Piece = 1000;

    public static Command Make() => new("ledger", "reads and checks the ledger, of a running service or where it lies") { Tail(), List(), LedgerVerifyCommand.Make(), AnchorCommand.Make() };

    internal static Option<string?> DataOption() => Common.Data("the data folder to read where it lies, running or stopped; without it the service is asked");

    private static Command Tail()
    {
        var count = new Option<int>("--count") { HelpName = "N", Description = "how many, 1 to 1000", DefaultValueFactory = _ => 20 };
        count.Validators.Add(r =>
        {
            if (r.GetValueOrDefault<int>() is < 1 or > Piece)
            {
                r.AddError($"--count is {r.GetValueOrDefault<int>()}; 1 to {Piece} was expected");
            }
        });
        var (data, server, json) = (DataOption(), Common.Server(), Common.Json());
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

            return await Read(parsed.GetValue(data), parsed.GetValue(server)!, parsed.GetValue(json),
                connection => LedgerQueries.Newest(connection, n).Select(EntryView.Of),
                async client => (await client.Call(token => client.Ledger.ListEntriesAsync(new() { After = -n }, cancellationToken: token))).Entries.Select(EntryView.Of));
        });
        return command;
    }

    private static Command List()
    {
        var fixture = new Option<string?>("--fixture") { HelpName = "FIXTURE", Description = "only entries of this fixture" };
        var kind = new Option<string?>("--kind") { HelpName = "KIND", Description = "only entries of this kind, for example answer" };
        var who = new Option<string?>("--client") { HelpName = "CLIENT", Description = "only entries of this client" };
        var tag = new Option<string?>("--tag") { HelpName = "T", Description = "only entries with this tag" };
        var after = new Option<long>("--after") { HelpName = "SERIAL", Description = "only entries above this serial" };
        var (data, server, json) = (DataOption(), Common.Server(), Common.Json());
        var command = new Command("list", "entries in the order of their serials") { fixture, kind, who, tag, after, data, server, json };
        command.SetAction(async (parsed, _) =>
        {
            var filter = new EntryFilter(parsed.GetValue(fixture), parsed.GetValue(kind), parsed.GetValue(who), parsed.GetValue(tag));
            var from = parsed.GetValue(after);
            return await Read(parsed.GetValue(data), parsed.GetValue(server)!, parsed.GetValue(json),
                connection => Pages(connection, from, filter),
                client => Pages(client, from, filter));
        });
        return command;
    }

    private static IEnumerable<EntryView> Pages(SqliteConnection connection, long after, EntryFilter filter)
    {
        after = Math.Max(0, after);
        for (var last = LedgerQueries.Last(connection); after < last; )
        {
            var piece = LedgerQueries.Piece(connection, after, last, Piece, filter);
            foreach (var row in piece.Rows)
            {
                yield return EntryView.Of(row);
            }

            after = piece.End;
        }
    }

    private static async Task<IEnumerable<EntryView>> Pages(ServiceClient client, long after, EntryFilter filter)
    {
        var request = new ListEntriesRequest
        {
            PageSize = Piece,
            After = Math.Max(0, after),
            Fixture = filter.Fixture ?? "",
            Kind = filter.Kind ?? "",
            Client = filter.Client ?? "",
            Tag = filter.Tag ?? "",
        };
        var all = new List<EntryView>();
        do
        {
            var page = await client.Call(token => client.Ledger.ListEntriesAsync(request, cancellationToken: token));
            all.AddRange(page.Entries.Select(EntryView.Of));
            request.PageToken = page.NextPageToken;
        }
        while (request.PageToken.Length > 0);
        return all;
    }

    private static async Task<int> Read(
        string? data, string server, bool json, Func<SqliteConnection, IEnumerable<EntryView>> local, Func<ServiceClient, Task<IEnumerable<EntryView>>> remote)
    {
        return data is null
            ? await ServiceClient.Run(server, async client => Print(await remote(client), json))
            : Open(data, connection => Print(local(connection), json));
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

    internal static int Open(string data, Func<SqliteConnection, int> read)
    {
        try
        {
            using var connection = LedgerFile.OpenReader(data);
            return read(connection);
        }
        catch (Exception e) when (e is IOException or SqliteException or InvalidDataException or InvalidOperationException or NotSupportedException or UnauthorizedAccessException)
        {
            Console.Error.WriteLine(Plain.Text($"the ledger could not be read: {e.Message}"));
            return ExitCodes.Failed;
        }
    }
}

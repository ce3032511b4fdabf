using Stockseat.Ledger.Store;
using Stockseat.Load.Clients;
using Stockseat.Load.Servers;

namespace Stockseat.Load.Figures;

/// <summary>Answers a second, as fast as they go.</summary>
internal static class RateFigures
{
    private const double Half = 0.5;

    // What PostgreSQL is to be left behind by.
    private const double OverPostgreSql = 3;

    // What a big ledger may cost.
    private const double BigOverEmpty = 0.97;

    public static async Task Grpc(Run run)
    {
        await using var service = await run.Place.Serve(run.Plan.Program, run.Place.NewLedger(), run.Token);
        await using var echo = await Workplace.Echo(run.Token);
        await using var asks = new GrpcLoad(service.Grpc);
        await using var echoes = new GrpcLoad(echo.Grpc);
        await run.Interleave(run.Results.Add("gRPC Locate, 64 in flight on 4 connections", "1/s", "unaudited echo, same stack", Goal.AtLeast(Half)), asks, echoes);
    }

    public static async Task Lines(Run run, int connections)
    {
        await using var service = await run.Place.Serve(run.Plan.Program, run.Place.NewLedger(), run.Token);
        await using var echo = await Workplace.Echo(run.Token);
        await using var asks = await LineLoad.Connect(service.Line, connections, run.Token);
        await using var echoes = await LineLoad.Connect(echo.Line, connections, run.Token);
        await run.Interleave(run.Results.Add($"locate in lines, {connections} connections, one in flight on each", "1/s", "unaudited echo, same stack", Goal.AtLeast(Half)), asks, echoes);
    }

    public static async Task PostgreSql(Run run)
    {
        const string name = "gRPC Locate, 64 in flight, against inserts of 64 clients";
        if (Servers.PostgreSql.Missing is { } why)
        {
            run.Results.Leave(name, why);
            return;
        }

        var data = run.Place.NewLedger();
        await using var service = await run.Place.Serve(run.Plan.Program, data, run.Token);
        await using var asks = new GrpcLoad(service.Grpc);
        await asks.Run(TimeSpan.FromMilliseconds(100), run.Token);
        await using var database = await Servers.PostgreSql.Start(run.Place.Folder, run.Token);
        await using var inserts = await InsertLoad.Connect(database.Connection, Answer(data), run.Token);
        await run.Interleave(run.Results.Add(name, "1/s", "rows committed by PostgreSQL", Goal.AtLeast(OverPostgreSql)), asks, inserts);
    }

    public static async Task Big(Run run, string big)
    {
        await using var full = await run.Place.Serve(run.Plan.Program, big, run.Token);
        await using var empty = await run.Place.Serve(run.Plan.Program, run.Place.NewLedger(), run.Token);
        await using var asks = new GrpcLoad(full.Grpc);
        await using var others = new GrpcLoad(empty.Grpc);
        await run.Interleave(run.Results.Add($"gRPC Locate with {run.Plan.Entries} entries before it", "1/s", "Stockseat, empty ledger", Goal.AtLeast(BigOverEmpty)), asks, others);
    }

    /// <summary>The last answer of a ledger that is being written.</summary>
    private static EntryRow Answer(string data)
    {
        using var reader = LedgerFile.OpenReader(data);
        return LedgerQueries.Before(reader, long.MaxValue, 1, new(Kind: "answer")).Single();
    }
}

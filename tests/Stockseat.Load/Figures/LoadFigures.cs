using Stockseat.Ledger.Store;
using Stockseat.Load.Clients;
using Stockseat.Load.Servers;

namespace Stockseat.Load.Figures;

/// <summary>What an answer costs when clients ask as fast as they are answered.</summary>
internal static class LoadFigures
{
    private const string Echo = "echo";

    // Goals for processor time under load, compared with the echo.
    private const double GrpcOverEcho = 2.6;
    private const double LinesOverEcho = 2.0;

    // The smallest share of the echo's answers a second.
    private const double Half = 0.5;

    // What measuring may cost.
    private const double MeasuredOverUnmeasured = 1.03;

    // How much faster than PostgreSQL it has to be.
    private const double OverPostgreSql = 3;

    // What a big ledger may cost.
    private const double BigOverEmpty = 0.97;

    /// <summary>What one side of a round took.</summary>
    private sealed record Side(Asked Asked, double ProcessorMicroseconds);

    /// <summary>Locate over gRPC, the diameter stated in it.</summary>
    /// <param name="run">The run.</param>
    /// <param name="connections">Connections.</param>
    /// <param name="clients">Calls in flight.</param>
    public static Task Grpc(Run run, int connections, int clients) => AgainstEcho(
        run, $"gRPC Locate, {Plural(connections, "connection")}, {Plural(clients, "call")} in flight", clients > 1 ? GrpcOverEcho : null,
        server => Task.FromResult<ILoad>(new GrpcLoad(server.Grpc, connections, clients)));

    /// <summary>The same in lines, one request in flight on each connection.</summary>
    public static Task Lines(Run run, int connections) => AgainstEcho(
        run, $"locate in lines, {Plural(connections, "connection")}", connections > 1 ? LinesOverEcho : null,
        async server => await LineLoad.Connect(server.Line, connections, run.Token));

    public static async Task PostgreSql(Run run)
    {
        const string of = "gRPC Locate, 64 in flight, against inserts of 64 clients";
        if (Tests.Support.Plants.PostgreSql.Missing is { } why)
        {
            run.Results.Leave(of, why);
            return;
        }

        var data = run.Place.NewLedger();
        await using var service = await run.Serve(data);
        await using var asks = new GrpcLoad(service.Grpc, 4, 64);
        await Window.Run(asks, run.Plan.WarmUp, run.Token);
        await using var database = await Tests.Support.Plants.PostgreSql.Start(run.Place.Folder, run.Token);
        await using var inserts = await InsertLoad.Connect(database.Connection, Answer(data), run.Token);
        await Window.Run(inserts, run.Plan.WarmUp, run.Token);
        var rate = run.Results.Add(of, "answers a second", "1/s", "rows committed by PostgreSQL", Goal.AtLeast(OverPostgreSql));
        await run.Interleave(
            () => Window.Run(asks, run.Plan.Span, run.Token), () => Window.Run(inserts, run.Plan.Span, run.Token), (a, b) => rate.Add(a.ASecond, b.ASecond));
    }

    public static async Task Big(Run run)
    {
        var of = $"gRPC Locate, {run.Plan.Entries} entries before it";
        await using var full = await run.Serve(await run.BigToServe());
        await using var empty = await run.Serve(run.Place.NewLedger());
        await using var asks = new GrpcLoad(full.Grpc, 4, 64);
        await using var others = new GrpcLoad(empty.Grpc, 4, 64);
        await InTurns(run, of, "an empty ledger", null, BigOverEmpty, full, asks, empty, others);
    }

    /// <summary>The same service with TLS and without.</summary>
    public static async Task Tls(Run run)
    {
        const string without = "without TLS";
        using var certificates = new Certificates();
        await using var service = await run.Place.ServeTls(run.Plan.Service, run.Place.NewLedger(), certificates, run.Token);
        await using var plain = await run.Serve(run.Place.NewLedger());
        await using (var asks = new GrpcLoad(service.Grpc, 4, 64, certificates))
        await using (var others = new GrpcLoad(plain.Grpc, 4, 64))
        {
            await InTurns(run, "gRPC Locate over TLS, 64 in flight", without, null, null, service, asks, plain, others);
        }

        await using (var asks = await LineLoad.Connect(service.LineTls!, 64, run.Token, certificates))
        await using (var others = await LineLoad.Connect(plain.Line, 64, run.Token))
        {
            await InTurns(run, "locate in lines over TLS, 64 connections", without, null, null, service, asks, plain, others);
        }

        await InTurns(
            run, "a connection for each locate in lines, 8 clients", without, null, null, service, new ConnectLoad(service.LineTls!, 8, certificates), plain,
            new ConnectLoad(plain.Line, 8));
    }

    /// <summary>The same service while its metrics are read once a second, and where nothing is measured.</summary>
    public static async Task Metrics(Run run)
    {
        const string without = "nothing measured";
        await using var service = await run.Serve(run.Place.NewLedger());
        await using var plain = await run.Place.ServeUnmeasured(run.Plan.Service, run.Place.NewLedger(), run.Token);
        using var ends = CancellationTokenSource.CreateLinkedTokenSource(run.Token);
        var reading = Read(service, ends.Token);
        await using (var asks = new GrpcLoad(service.Grpc, 4, 64))
        await using (var others = new GrpcLoad(plain.Grpc, 4, 64))
        {
            await InTurns(run, "gRPC Locate with metrics, 64 in flight", without, MeasuredOverUnmeasured, null, service, asks, plain, others);
        }

        await using (var asks = await LineLoad.Connect(service.Line, 64, run.Token))
        await using (var others = await LineLoad.Connect(plain.Line, 64, run.Token))
        {
            await InTurns(run, "locate in lines with metrics, 64 connections", without, MeasuredOverUnmeasured, null, service, asks, plain, others);
        }

        await ends.CancelAsync();
        await reading;
    }

    private static async Task Read(Child service, CancellationToken token)
    {
        using var reader = new HttpClient { BaseAddress = new($"http://{service.Page}") };
        try
        {
            while (true)
            {
                await reader.GetStringAsync(new Uri("/metrics", UriKind.Relative), token);
                await Task.Delay(TimeSpan.FromSeconds(1), token);
            }
        }
        catch (OperationCanceledException) when (token.IsCancellationRequested)
        {
            // The load has ended.
        }
    }

    private static async Task AgainstEcho(Run run, string of, double? goal, Func<Child, Task<ILoad>> connect)
    {
        await using var service = await run.Serve(run.Place.NewLedger());
        await using var echo = await run.Echo();
        await using var asks = await connect(service);
        await using var echoes = await connect(echo);
        await InTurns(run, of, Echo, goal, goal is null ? null : Half, service, asks, echo, echoes);
    }

    /// <summary>Two servers in turns, each with its load.</summary>
    public static async Task InTurns(
        Run run, string of, string against, double? overhead, double? least, Child subject, ILoad asks, Child baseline, ILoad others)
    {
        var processor = run.Results.Add(of, "processor time an answer", "µs", against, overhead is { } most ? Goal.AtMost(most) : Goal.None);
        var rate = run.Results.Add(of, "answers a second", "1/s", against, least is { } share ? Goal.AtLeast(share) : Goal.None);
        var p50 = run.Results.Add(of, "p50", "ms", against);
        var p99 = run.Results.Add(of, "p99", "ms", against);
        await Window.Run(asks, run.Plan.WarmUp, run.Token);
        await Window.Run(others, run.Plan.WarmUp, run.Token);
        await run.Interleave(() => Measure(run, subject, asks), () => Measure(run, baseline, others), (a, b) =>
        {
            processor.Add(a.ProcessorMicroseconds, b.ProcessorMicroseconds);
            rate.Add(a.Asked.ASecond, b.Asked.ASecond);
            p50.Add(a.Asked.Latencies.Percentile(50), b.Asked.Latencies.Percentile(50));
            p99.Add(a.Asked.Latencies.Percentile(99), b.Asked.Latencies.Percentile(99));
        });
    }

    private static async Task<Side> Measure(Run run, Child server, ILoad load)
    {
        var before = server.ProcessorTime;
        var asked = await Window.Run(load, run.Plan.Span, run.Token);
        return new(asked, (server.ProcessorTime - before).TotalMicroseconds / asked.All);
    }

    /// <summary>The last answer of a ledger that is being written.</summary>
    private static EntryRow Answer(string data)
    {
        using var reader = LedgerFile.OpenReader(data);
        return LedgerQueries.Before(reader, long.MaxValue, 1, new(Kind: "answer")).Single();
    }

    private static string Plural(int count, string of) => count == 1 ? $"1 {of}" : $"{count} {of}s";
}

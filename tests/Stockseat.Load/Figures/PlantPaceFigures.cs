using System.Globalization;
using Npgsql;
using Stockseat.Load.Clients;
using Stockseat.Load.Servers;
using Stockseat.Tests.Support.Plants;

namespace Stockseat.Load.Figures;

/// <summary>
/// How long an answer takes when 1,000 asks a second come at random, while the plant store is up, away, and catching up with the big ledger, compared with a
/// service that has none. All share the cores, the database too.
/// </summary>
internal static class PlantPaceFigures
{
    private const double ASecond = 1000;
    private const double OverWithout = 1.1;
    private const double Percent = 99;
    private static readonly TimeSpan Span = TimeSpan.FromSeconds(10);

    /// <param name="run">The run.</param>
    /// <param name="database">The store.</param>
    /// <param name="data">The big ledger, which the store has.</param>
    public static async Task Measure(Run run, PostgreSql database, string data)
    {
        await using var with = await run.Place.ServePlant(run.Plan.Service, data, database, run.Token);
        await using var without = await run.Serve(run.Place.NewLedger());
        await Until(database, c => c >= run.Plan.Entries, run.Token);
        await Asked(with);
        await Asked(without);
        var memory = new List<double> { with.ResidentMegabytes() };
        await Rounds("up");

        await Sql(database, "TRUNCATE stockseat.entry");
        await database.Stop();
        memory.Add(with.ResidentMegabytes());
        await Rounds("away");

        var figure = Figure("catching up");
        var beside = await Asked(without);
        await database.Start(run.Token);
        await Until(database, c => c > 0, run.Token);
        var before = await Count(database);
        figure.Add(await Asked(with), beside);
        var after = await Count(database);
        memory.Add(with.ResidentMegabytes());
        run.Results.Note(string.Create(CultureInfo.InvariantCulture, $"""
            While it caught up, the store grew from {before} to {after} entries of {run.Plan.Entries} and more. Resident memory of the service with the store
            up, away, and after that: {string.Join(", ", memory.Select(m => m.ToString("F0", CultureInfo.InvariantCulture)))} MB.
            """));
        await Until(database, c => c >= run.Plan.Entries, run.Token);

        Figure Figure(string state) => run.Results.Add(
            $"1,000 locates a second in lines, plant store {state}", "p99", "ms", "without a plant store", Goal.AtMost(OverWithout));

        async Task Rounds(string state)
        {
            var of = Figure(state);
            for (var i = 0; i < run.Plan.Rounds; i++)
            {
                of.Add(await Asked(with), await Asked(without));
            }
        }

        async Task<double> Asked(Child server) => (await RandomArrivals.Run(server.Line, ASecond, Span, run.Token)).Percentile(Percent);
    }

    private static async Task Until(PostgreSql database, Func<long, bool> enough, CancellationToken token)
    {
        while (!enough(await Count(database)))
        {
            await Task.Delay(50, token);
        }
    }

    private static async Task<long> Count(PostgreSql database)
    {
        await using var connection = new NpgsqlConnection(database.Connection);
        await connection.OpenAsync();
        await using var command = new NpgsqlCommand("SELECT coalesce(sum(last_serial - first_serial + 1), 0)::bigint FROM stockseat.cells", connection);
        return (long)(await command.ExecuteScalarAsync())!;
    }

    private static async Task Sql(PostgreSql database, string sql)
    {
        await using var connection = new NpgsqlConnection(database.Connection);
        await connection.OpenAsync();
        await using var command = new NpgsqlCommand(sql, connection);
        await command.ExecuteNonQueryAsync();
    }
}

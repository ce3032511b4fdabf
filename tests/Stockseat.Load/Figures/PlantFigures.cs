using System.Diagnostics;
using System.Security.Cryptography;
using Npgsql;
using NpgsqlTypes;
using Stockseat.Answers.Entries;
using Stockseat.Ledger.Store;
using Stockseat.Load.Clients;
using Stockseat.Load.Servers;
using Stockseat.Tests.Support.Plants;

namespace Stockseat.Load.Figures;

/// <summary>The plant store: sending the big ledger against a bare COPY of its rows, verifying against a bare scan, and what answers cost beside it.</summary>
internal static class PlantFigures
{
    private const double OfCopy = 0.5;
    private const double OfScan = 0.5;
    private const double OverWithout = 1.05;
    private const int MostRounds = 3;

    public static async Task Measure(Run run)
    {
        var of = $"plant store, {run.Plan.Entries} entries";
        if (PostgreSql.Missing is { } why)
        {
            run.Results.Leave(of, why);
            return;
        }

        await using var database = await PostgreSql.Start(run.Place.Folder, run.Token);
        await Prepare(run, database);
        await Send(run, of, database);
        await Verify(run, of, database);
        await Answers(run, database);
        await PlantPaceFigures.Measure(run, database, await run.BigToServe());
        await PlantReviewFigures.Measure(run, database, Connection(database));
    }

    private static async Task Send(Run run, string of, PostgreSql database)
    {
        var rate = run.Results.Add($"{of}, sending", "entries a second", "1/s", "a bare COPY of the same rows", Goal.AtLeast(OfCopy));
        var size = run.Results.Add($"{of}, stored", "bytes an entry", "B", "the ledger's own file");
        var data = await run.BigToServe();
        var rounds = Math.Min(run.Plan.Rounds, MostRounds);
        for (var i = 0; i < rounds; i++)
        {
            await Sql(database, "TRUNCATE stockseat.entry; DROP TABLE IF EXISTS bare; CREATE TABLE bare (LIKE stockseat.entry INCLUDING ALL); CHECKPOINT");
            var begun = Stopwatch.GetTimestamp();
            await using (await run.Place.ServePlant(run.Plan.Service, data, database, run.Token))
            {
                while (await Count(database, "SELECT coalesce(max(serial), 0) FROM stockseat.entry") < run.Plan.Entries)
                {
                    await Task.Delay(50, run.Token);
                }
            }

            var sent = Stopwatch.GetElapsedTime(begun);
            await Sql(database, "CHECKPOINT");
            begun = Stopwatch.GetTimestamp();
            await Copy(data, database, run.Plan.Entries, run.Token);
            rate.Add(run.Plan.Entries / sent.TotalSeconds, run.Plan.Entries / Stopwatch.GetElapsedTime(begun).TotalSeconds);
            size.Add(
                await Count(database, "SELECT sum(pg_total_relation_size(inhrelid))::bigint FROM pg_inherits WHERE inhparent = 'stockseat.entry'::regclass")
                    / (double)run.Plan.Entries,
                new FileInfo(Path.Combine(data, LedgerFile.Name)).Length / (double)run.Plan.Entries);
        }
    }

    private static async Task Verify(Run run, string of, PostgreSql database)
    {
        var rate = run.Results.Add($"{of}, plant verify", "entries a second", "1/s", "a bare scan with SHA-256", Goal.AtLeast(OfScan));
        for (var i = 0; i < Math.Min(run.Plan.Rounds, MostRounds); i++)
        {
            var verified = await Command.Run(run.Plan.Service, ["plant", "verify", "--connection", Connection(database)], run.Token);
            var begun = Stopwatch.GetTimestamp();
            var entries = await Scan(database, run.Token);
            rate.Add(entries / verified.Took.TotalSeconds, entries / Stopwatch.GetElapsedTime(begun).TotalSeconds);
        }
    }

    /// <summary>Answers with the store up, and without one.</summary>
    private static async Task Answers(Run run, PostgreSql database)
    {
        await using var with = await run.Place.ServePlant(run.Plan.Service, run.Place.NewLedger(), database, run.Token);
        await using var without = await run.Serve(run.Place.NewLedger());
        await using var asks = new GrpcLoad(with.Grpc, 4, 64);
        await using var others = new GrpcLoad(without.Grpc, 4, 64);
        await LoadFigures.InTurns(
            run, "gRPC Locate, 64 in flight, with a plant store", "without a plant store", OverWithout, null, with, asks, without, others);
    }

    private static async Task Copy(string data, PostgreSql database, long most, CancellationToken token)
    {
        using var ledger = LedgerFile.OpenReader(data);
        using var select = ledger.CreateCommand();
        select.CommandText =
            "SELECT serial, at, kind, fixture, revision, client, tag, CAST(body AS BLOB), hash FROM entry WHERE serial <= $most ORDER BY serial";
        select.Parameters.AddWithValue("$most", most);
        using var row = select.ExecuteReader();
        await using var connection = new NpgsqlConnection(database.Connection);
        await connection.OpenAsync(token);
        var id = Guid.NewGuid();
        await using var copy = await connection.BeginBinaryImportAsync(
            "COPY bare (ledger, serial, at, kind, fixture, revision, client, tag, body, hash) FROM STDIN (FORMAT BINARY)", token);
        while (row.Read())
        {
            await copy.StartRowAsync(token);
            await copy.WriteAsync(id, NpgsqlDbType.Uuid, token);
            await copy.WriteAsync(row.GetInt64(0), NpgsqlDbType.Bigint, token);
            await copy.WriteAsync(EntryTime.Parse(row.GetString(1)).UtcDateTime, NpgsqlDbType.TimestampTz, token);
            await copy.WriteAsync(row.GetString(2), NpgsqlDbType.Text, token);
            await Text(3);
            await (row.IsDBNull(4) ? copy.WriteNullAsync(token) : copy.WriteAsync(row.GetInt64(4), NpgsqlDbType.Bigint, token));
            await Text(5);
            await Text(6);
            await copy.WriteAsync(row.GetFieldValue<byte[]>(7), NpgsqlDbType.Text, token);
            await copy.WriteAsync(row.GetFieldValue<byte[]>(8), NpgsqlDbType.Bytea, token);
        }

        await copy.CompleteAsync(token);

        Task Text(int column) => row.IsDBNull(column) ? copy.WriteNullAsync(token) : copy.WriteAsync(row.GetString(column), NpgsqlDbType.Text, token);
    }

    private static async Task<long> Scan(PostgreSql database, CancellationToken token)
    {
        await using var connection = new NpgsqlConnection(database.Connection);
        await connection.OpenAsync(token);
        await using var copy = await connection.BeginBinaryExportAsync(
            "COPY (SELECT body, hash FROM stockseat.entry ORDER BY ledger, serial) TO STDOUT (FORMAT BINARY)", token);
        var count = 0L;
        while (await copy.StartRowAsync(token) >= 0)
        {
            _ = SHA256.HashData(await copy.ReadAsync<byte[]>(NpgsqlDbType.Bytea, token));
            _ = await copy.ReadAsync<byte[]>(NpgsqlDbType.Bytea, token);
            count++;
        }

        return count;
    }

    private static async Task Prepare(Run run, PostgreSql database) =>
        await Command.Run(run.Plan.Service, ["plant", "prepare", "--connection", Connection(database)], run.Token);

    private static string Connection(PostgreSql database) => $"Host={database.Folder};Database=postgres;Username=postgres";

    private static async Task Sql(PostgreSql database, string sql)
    {
        await using var connection = new NpgsqlConnection(database.Connection);
        await connection.OpenAsync();
        foreach (var statement in sql.Split("; "))
        {
            await using var command = new NpgsqlCommand(statement, connection) { CommandTimeout = 600 };
            await command.ExecuteNonQueryAsync();
        }
    }

    private static async Task<long> Count(PostgreSql database, string sql)
    {
        await using var connection = new NpgsqlConnection(database.Connection);
        await connection.OpenAsync();
        await using var command = new NpgsqlCommand(sql, connection);
        return (long)(await command.ExecuteScalarAsync())!;
    }
}

using System.Diagnostics;
using System.Globalization;
using Npgsql;
using Stockseat.Audit.Reviewing;
using Stockseat.Audit.Reviewing.Results;
using Stockseat.Audit.Showing;
using Stockseat.Plant.Connecting;
using Stockseat.Plant.Evidence;
using Stockseat.Plant.Heads;
using Stockseat.Tests.Support.Plants;

namespace Stockseat.Load.Figures;

/// <summary>
/// How long a review of ten minutes of one of 200 cells takes from the plant store, connecting included, compared with reading the same rows there. Both run in
/// this program, so this is an ordinary build's figure.
/// </summary>
internal static class PlantReviewFigures
{
    private const int Cells = 200;
    private const long MostRows = 10_000_000;
    private const int Places = 20;
    private const double MostMs = 100;

    private static readonly ReviewQuestion TenMinutes = new() { Before = TimeSpan.FromMinutes(8), After = TimeSpan.FromMinutes(2) };

    /// <param name="run">The run.</param>
    /// <param name="database">The store, which has one ledger.</param>
    /// <param name="connection">How to connect to it.</param>
    public static async Task Measure(Run run, PostgreSql database, string connection)
    {
        var each = Math.Min(run.Plan.Entries, MostRows / Cells);
        await Multiply(database, each);
        var address = PlantAddress.Read(connection, null, out var fault) ?? throw new InvalidOperationException(fault);
        var figure = run.Results.Add(
            $"review of 10 minutes from a plant store of {each * Cells} entries of {Cells} cells", "median of the places", "ms",
            "the same rows read from the store", Goal.Within(MostMs, "ms"));
        var (copied, whole, window) = (0L, 0, default(Review));
        await run.Interleave(
            () => Each(each, async serial =>
            {
                var folder = Directory.CreateTempSubdirectory("stockseat-plant-");
                try
                {
                    await using var store = await PlantConnection.To(address, run.Token);
                    var all = await StoredLedgers.All(store, address, run.Token);
                    var ledger = all[(int)(serial % all.Count)];
                    var question = TenMinutes with { Serial = serial };
                    if (!await new StoredMinutes(store, address).Make(ledger, all, question, folder.FullName, run.Token))
                    {
                        whole++;
                        await new StoredCopy(store, address).Make(ledger, all, folder.FullName, run.Token);
                    }

                    window = LedgerReview.Of(folder.FullName, question, verify: null, Display.Plain, run.Token)!;
                    copied = Math.Max(copied, folder.EnumerateFiles().Sum(f => f.Length));
                }
                finally
                {
                    folder.Delete(recursive: true);
                }
            }),
            () => Each(each, async serial =>
            {
                await using var source = new NpgsqlConnection(database.Connection);
                await source.OpenAsync(run.Token);
                await using var command = new NpgsqlCommand(
                    "SELECT body, hash FROM stockseat.entry WHERE ledger = (SELECT ledger FROM stockseat.entry LIMIT 1) AND serial BETWEEN $1 AND $2", source);
                command.Parameters.Add(new NpgsqlParameter<long> { TypedValue = serial - window!.Entries.Count });
                command.Parameters.Add(new NpgsqlParameter<long> { TypedValue = serial });
                await using var reader = await command.ExecuteReaderAsync(run.Token);
                while (await reader.ReadAsync(run.Token))
                {
                    _ = (reader.GetString(0), reader.GetFieldValue<byte[]>(1));
                }
            }),
            figure.Add);
        run.Results.Note(string.Create(CultureInfo.InvariantCulture, $"""
            Reviewed from the plant store: {Places} places a round, the last one with {window!.Entries.Count} entries; up to {copied / 1e6:F1} MB were copied
            for one review, and {whole} reviews needed a whole ledger.
            """));
    }

    private static async Task<double> Each(long last, Func<long, Task> look)
    {
        var spent = new List<double>();
        for (var i = 1; i <= Places; i++)
        {
            var begun = Stopwatch.GetTimestamp();
            await look(last * i / (Places + 1));
            spent.Add(Stopwatch.GetElapsedTime(begun).TotalMilliseconds);
        }

        return spent.Order().ElementAt(Places / 2);
    }

    /// <summary>Gives the rows of the one ledger to the other cells too.</summary>
    private static async Task Multiply(PostgreSql database, long each)
    {
        await using var connection = new NpgsqlConnection(database.Connection);
        await connection.OpenAsync();
        await using var command = new NpgsqlCommand(string.Create(CultureInfo.InvariantCulture, $"""
            DO $$ DECLARE one uuid := (SELECT ledger FROM stockseat.entry LIMIT 1); BEGIN
              DELETE FROM stockseat.entry WHERE serial > {each} OR ledger <> one;
              FOR i IN 2..{Cells} LOOP
                INSERT INTO stockseat.entry (ledger, serial, at, cell, kind, fixture, revision, client, tag, body, hash)
                SELECT md5(i::text)::uuid, serial, at, CASE WHEN cell IS NULL THEN NULL ELSE 'cell-' || i END, kind, fixture, revision, client, tag, body, hash
                FROM stockseat.entry WHERE ledger = one;
              END LOOP;
            END $$
            """), connection) { CommandTimeout = 3600 };
        await command.ExecuteNonQueryAsync();
        await using var analyze = new NpgsqlCommand("VACUUM (ANALYZE) stockseat.entry", connection) { CommandTimeout = 3600 };
        await analyze.ExecuteNonQueryAsync();
    }
}

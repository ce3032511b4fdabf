using System.Diagnostics;
using System.Globalization;
using System.Security.Cryptography;
using Microsoft.Data.Sqlite;
using SQLitePCL;
using Stockseat.Ledger.Store;
using Stockseat.Ledger.Verifying;

namespace Stockseat.Load.Figures;

/// <summary>Entries verified a second, against a bare scan with SHA-256 over each body, as many at once as there are cores.</summary>
internal static class VerifyFigures
{
    // What the columns, the indexes, the JSON and the order may cost.
    private const double OfScan = 0.8;

    public static async Task Measure(Run run, string big)
    {
        var chain = run.Results.Add("ledger verify, the walk, all cores", "1/s", "scan of the rows and SHA-256, all cores", Goal.AtLeast(OfScan));
        await run.Interleave(chain, () => Verify(run, big, pages: false), () => Scan(run, big));
        var pages = run.Results.Add("the same with SQLite's check of the pages beside it", "1/s", "scan of the rows and SHA-256, all cores", Goal.None);
        await run.Interleave(pages, () => Verify(run, big, pages: true), () => Scan(run, big));
        run.Results.Note(string.Create(CultureInfo.InvariantCulture, $"Resident after verifying: {Environment.WorkingSet / 1e6:F0} MB."));
    }

    private static Task<double> Verify(Run run, string big, bool pages) => Task.Run(() =>
    {
        var begun = Stopwatch.GetTimestamp();
        var found = LedgerVerifier.Verify(big, new() { Pages = pages }, run.Token);
        return found.Whole ? found.Entries / Stopwatch.GetElapsedTime(begun).TotalSeconds : throw new InvalidOperationException("the big ledger is not whole");
    });

    private static async Task<double> Scan(Run run, string big)
    {
        var last = run.Plan.Entries;
        var cores = Environment.ProcessorCount;
        var begun = Stopwatch.GetTimestamp();
        var rows = await Task.WhenAll(Enumerable.Range(0, cores).Select(i => Task.Run(() => ScanRange(big, last * i / cores, last * (i + 1) / cores))));
        return rows.Sum() / Stopwatch.GetElapsedTime(begun).TotalSeconds;
    }

    internal static long ScanRange(string big, long above, long to)
    {
        using var connection = LedgerFile.OpenReader(big);
        SqliteException.ThrowExceptionForRC(
            raw.sqlite3_prepare_v2(connection.Handle, FormattableString.Invariant($"SELECT body, hash FROM entry WHERE serial > {above} AND serial <= {to} ORDER BY serial"), out var statement), connection.Handle);
        using (statement)
        {
            Span<byte> hash = stackalloc byte[32];
            long rows = 0;
            while (raw.sqlite3_step(statement) == raw.SQLITE_ROW)
            {
                SHA256.HashData(raw.sqlite3_column_blob(statement, 0), hash);
                rows += raw.sqlite3_column_blob(statement, 1).Length / 32;
            }

            return rows;
        }
    }
}

using System.Security.Cryptography;
using Microsoft.Data.Sqlite;
using SQLitePCL;

namespace Stockseat.Baseline;

/// <summary>The least that reading a ledger costs: its rows in their order, SHA-256 over each body, and nothing checked.</summary>
internal static class BareScan
{
    /// <summary>Scans.</summary>
    /// <param name="folder">The data folder.</param>
    /// <param name="cores">How many ranges are scanned at once.</param>
    /// <returns>How many rows there were.</returns>
    public static async Task<long> Run(string folder, int cores)
    {
        using var connection = Open(folder);
        using var newest = connection.CreateCommand();
        newest.CommandText = "SELECT max(serial) FROM entry";
        var last = (long)newest.ExecuteScalar()!;
        var rows = await Task.WhenAll(Enumerable.Range(0, cores).Select(i => Task.Run(() => Range(folder, last * i / cores, last * (i + 1) / cores))));
        return rows.Sum();
    }

    private static long Range(string folder, long above, long to)
    {
        using var connection = Open(folder);
        var sql = FormattableString.Invariant($"SELECT body, hash FROM entry WHERE serial > {above} AND serial <= {to} ORDER BY serial");
        SqliteException.ThrowExceptionForRC(raw.sqlite3_prepare_v2(connection.Handle, sql, out var statement), connection.Handle);
        using (statement)
        {
            Span<byte> hash = stackalloc byte[SHA256.HashSizeInBytes];
            long rows = 0;
            int result;
            while ((result = raw.sqlite3_step(statement)) == raw.SQLITE_ROW)
            {
                SHA256.HashData(raw.sqlite3_column_blob(statement, 0), hash);
                rows += raw.sqlite3_column_blob(statement, 1).Length / SHA256.HashSizeInBytes;
            }

            return result == raw.SQLITE_DONE ? rows : throw new SqliteException($"the scan ended after {rows} rows", result);
        }
    }

    private static SqliteConnection Open(string folder)
    {
        var connection = new SqliteConnection($"Data Source={Path.Combine(folder, "ledger.db")};Mode=ReadOnly;Pooling=False");
        connection.Open();
        return connection;
    }
}

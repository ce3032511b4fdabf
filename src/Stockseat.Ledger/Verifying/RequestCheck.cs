using System.Text;
using System.Text.Json;
using Microsoft.Data.Sqlite;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Verifying;

/// <summary>
/// Compares the table of request ids with the bodies: it must have the ids of the newest entries, as many as are remembered, and none that no body has.
/// </summary>
internal static class RequestCheck
{
    private const int Piece = 5000;

    /// <summary>Checks the table. An id of a missing row belongs to a gap, which the walk reports.</summary>
    /// <param name="connection">The ledger.</param>
    /// <param name="head">The last entry that counts.</param>
    /// <param name="walked">The faults of the rows: nothing more is reported about those rows.</param>
    /// <param name="faults">Faults are added here.</param>
    /// <param name="token">Stops it soon.</param>
    public static void Run(SqliteConnection connection, long head, FaultList walked, FaultList faults, CancellationToken token)
    {
        if (!LedgerTables.HasRequests(connection))
        {
            return;
        }

        try
        {
            using var rows = EntryScan.Upwards(connection);
            for (long? from = First(connection, head); from is { } above && above < head; from = above + Piece)
            {
                token.ThrowIfCancellationRequested();
                Compare(connection, rows, above, Math.Min(above + Piece, head), head, walked, faults);
            }
        }
        catch (Exception e) when (LedgerVerifier.IsDamage(e))
        {
            faults.Add(0, FaultKinds.Index, $"the table of request ids can't be read: {e.Message}");
        }
    }

    /// <summary>Entries before the first one in the table, and before those that it must have, are not compared.</summary>
    private static long First(SqliteConnection connection, long head)
    {
        using var command = connection.CreateCommand();
        command.CommandText = "SELECT min(serial) FROM request";
        var must = head - RequestQueries.Remembered;
        return Math.Min(command.ExecuteScalar() is long first ? first - 1 : must, must);
    }

    private static void Compare(SqliteConnection connection, EntryScan rows, long above, long upTo, long head, FaultList walked, FaultList faults)
    {
        var must = Math.Max(head, LedgerQueries.Last(connection)) - RequestQueries.Remembered; // A running service keeps removing older ids.
        var table = RequestQueries.Of(connection, above, upTo).ToDictionary(r => r.Serial, r => (r.Client, r.Request));
        rows.Begin(above + 1, upTo, long.MaxValue);
        while (rows.Step(out var row))
        {
            var said = RequestIn(row.Body);
            var has = table.Remove(row.Serial, out var id);
            if (!walked.HasAny(row.Serial - 1, row.Serial)
                && (has ? said != id.Request || (row.HasClient ? Encoding.UTF8.GetString(row.Client) : null) != id.Client
                    : said is not null && row.Serial > must))
            {
                faults.Add(row.Serial, FaultKinds.Index, has
                    ? $"the table of request ids has another id for entry {row.Serial} than its body: a retry would get another outcome"
                    : $"the request id of entry {row.Serial} is missing from the table of request ids: a retry would be decided as a new ask");
            }
        }
    }

    /// <summary>
    /// The request id of a body itself, not of a body that it carries; null: there is none, or the body can't be read, which the walk reports.
    /// </summary>
    private static string? RequestIn(ReadOnlySpan<byte> body)
    {
        if (body.IndexOf("\"request\":\""u8) < 0)
        {
            return null;
        }

        try
        {
            var reader = new Utf8JsonReader(body);
            reader.Read();
            while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
            {
                var found = reader.ValueTextEquals("request"u8);
                reader.Read();
                if (found)
                {
                    return reader.TokenType == JsonTokenType.String ? reader.GetString() : null;
                }

                reader.Skip();
            }
        }
        catch (Exception e) when (BodyReading.IsUnreadable(e))
        {
            // The walk reports it.
        }

        return null;
    }
}

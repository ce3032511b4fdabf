using System.Text;
using System.Text.Json;
using Microsoft.Data.Sqlite;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Verifying;

/// <summary>
/// Holds the table of request ids against the bodies: it has the ids of the newest entries, as many as are remembered, and none that no body says.
/// </summary>
internal static class RequestCheck
{
    private const int Piece = 5000;

    /// <summary>Checks it. One of a row that is not there is a gap's, which the walk tells.</summary>
    /// <param name="connection">The ledger.</param>
    /// <param name="head">The last entry that counts.</param>
    /// <param name="walked">What is wrong with the rows: of those nothing more is said.</param>
    /// <param name="faults">Takes what is wrong.</param>
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

    /// <summary>What lies before the first that it has, and before those that it must have, says nothing.</summary>
    private static long First(SqliteConnection connection, long head)
    {
        using var command = connection.CreateCommand();
        command.CommandText = "SELECT min(serial) FROM request";
        var must = head - RequestQueries.Remembered;
        return Math.Min(command.ExecuteScalar() is long first ? first - 1 : must, must);
    }

    private static void Compare(SqliteConnection connection, EntryScan rows, long above, long upTo, long head, FaultList walked, FaultList faults)
    {
        var must = Math.Max(head, LedgerQueries.Last(connection)) - RequestQueries.Remembered; // A service that runs goes on taking out older ones.
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
                    ? $"the table of request ids says of entry {row.Serial} what its body does not: a retry would get another outcome"
                    : $"the request id of entry {row.Serial} is not in the table of them: a retry would be decided anew");
            }
        }
    }

    /// <summary>The request id of a body itself, not of one that it carries; null: it has none, or can't be read, which the walk says.</summary>
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
            // The walk says it.
        }

        return null;
    }
}

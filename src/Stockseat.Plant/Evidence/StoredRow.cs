using Npgsql;
using Stockseat.Answers.Entries;
using Stockseat.Plant.Heads;

namespace Stockseat.Plant.Evidence;

/// <summary>Reads rows of the store in the form in which a ledger's file has them.</summary>
internal static class StoredRow
{
    public const string Columns = "serial, at, kind, fixture, revision, client, tag, body, hash";

    public const int Serial = 0;
    public const int At = 1;
    public const int Kind = 2;
    public const int Fixture = 3;
    public const int Body = 7;

    /// <summary>The current row of a reader of these columns; <see cref="DBNull"/> for what is not there.</summary>
    public static void Read(NpgsqlDataReader reader, object[] values)
    {
        for (var i = 0; i < values.Length; i++)
        {
            values[i] = reader.IsDBNull(i) ? DBNull.Value : i switch
            {
                Serial or 4 => reader.GetInt64(i),
                At => EntryTime.Text(StoredLedgers.Instant(reader, i)),
                8 => reader.GetFieldValue<byte[]>(i),
                _ => reader.GetString(i),
            };
        }
    }
}

using Microsoft.Data.Sqlite;
using Stockseat.Answers.Events;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Seals;

/// <summary>The newest seal of a ledger.</summary>
/// <param name="Serial">The serial of its entry; 0: there is no seal.</param>
/// <param name="Key">The key with which it was made; null: there is no seal, or its body can't be read.</param>
/// <param name="At">The instant of its entry; null as for the key.</param>
public readonly record struct NewestSeal(long Serial, string? Key, string? At)
{
    /// <summary>Finds it without scanning the ledger.</summary>
    internal static NewestSeal Read(SqliteConnection connection)
    {
        if (LedgerQueries.SealRow(connection) is not { } row)
        {
            return default;
        }

        // When its body can't be read, a start needs only the serial, and the next seal then carries its public key again.
        var seal = row.TryReadBody() as SealBody;
        return new(row.Serial, seal?.Key, seal?.At);
    }
}

using Microsoft.Data.Sqlite;
using Stockseat.Answers.Events;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Seals;

/// <summary>The newest seal of a ledger.</summary>
/// <param name="Serial">The serial of its entry; 0: there is no seal.</param>
/// <param name="Key">The key with which it was made; null: there is no seal, or its body can't be read.</param>
public readonly record struct NewestSeal(long Serial, string? Key)
{
    /// <summary>Finds it without scanning the ledger.</summary>
    internal static NewestSeal Read(SqliteConnection connection)
    {
        if (LedgerQueries.SealRow(connection) is not { } row)
        {
            return default;
        }

        // When its body can't be read, a start needs only the serial, and the next seal then carries its public key again.
        return new(row.Serial, (row.TryReadBody() as SealBody)?.Key);
    }
}

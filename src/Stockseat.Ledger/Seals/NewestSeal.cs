using Microsoft.Data.Sqlite;
using Stockseat.Answers.Events;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Seals;

/// <summary>The newest seal of a ledger.</summary>
/// <param name="Serial">Its entry; 0: there is none.</param>
/// <param name="Key">The key that it was made with; null: there is none, or its body can't be read.</param>
public readonly record struct NewestSeal(long Serial, string? Key)
{
    /// <summary>Finds it without a scan.</summary>
    internal static NewestSeal Read(SqliteConnection connection)
    {
        if (LedgerQueries.SealRow(connection) is not { } row)
        {
            return default;
        }

        // Of one that can't be read a start needs the serial only, and the next seal then carries its public key again.
        return new(row.Serial, (row.TryReadBody() as SealBody)?.Key);
    }
}

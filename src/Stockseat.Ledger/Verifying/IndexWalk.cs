using Microsoft.Data.Sqlite;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Verifying;

/// <summary>Counts the rows that belong in the indexes, and looks each of them up there.</summary>
/// <param name="connection">The ledger.</param>
/// <param name="asks">Whether there are indexes to look in.</param>
internal sealed class IndexWalk(SqliteConnection connection, bool asks) : IDisposable
{
    private readonly IndexProbe? _probe = asks ? new(connection) : null;

    /// <summary>Takes the next row.</summary>
    public void See(in EntryBytes row, WalkResult result)
    {
        var stands = IndexProbe.Stands(row);
        if (!stands && !IndexProbe.IsRefusedPush(row))
        {
            return;
        }

        (result.Standing, result.RefusedPushes) = stands ? (result.Standing + 1, result.RefusedPushes) : (result.Standing, result.RefusedPushes + 1);
        var index = stands ? LedgerIndexes.OfStanding : LedgerIndexes.OfRefusedPushes;
        try
        {
            if (_probe?.Has(row, stands) == false)
            {
                result.Faults.Add(row.Serial, FaultKinds.Index,
                    $"entry {row.Serial} is not in the index {index}, or is in it with other values: a start would miss it");
            }
        }
        catch (Exception e) when (LedgerVerifier.IsDamage(e))
        {
            result.Faults.Add(row.Serial, FaultKinds.Index, $"the index {index} can't be read at entry {row.Serial}: {e.Message}");
        }
    }

    public void Dispose() => _probe?.Dispose();
}

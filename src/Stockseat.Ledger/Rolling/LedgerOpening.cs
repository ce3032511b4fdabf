using Stockseat.Ledger.Sessions;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Rolling;

/// <summary>Opens the ledger of a data folder for writing, after finishing a roll that was cut off there.</summary>
internal static class LedgerOpening
{
    /// <summary>Opens the ledger.</summary>
    /// <param name="folder">The data folder.</param>
    /// <param name="afterFailure">Whether a write or a sync failed before.</param>
    /// <param name="toBeSealed">Whether the ledger will be sealed.</param>
    /// <param name="snapshots">Whether snapshots will be written in it.</param>
    /// <param name="alone">The lock of the folder; null: the lock is not held.</param>
    /// <exception cref="InvalidDataException">The last entry does not follow from the one before it, it can't be sealed, or the ledger is missing.</exception>
    public static LedgerSession Open(string folder, bool afterFailure = false, bool toBeSealed = false, bool snapshots = false, FolderLock? alone = null)
    {
        LostLedger.RefuseMarked(folder);
        Rollover.Resume(folder);
        LostLedger.RefuseMissing(folder);
        var session = LedgerSession.Open(folder, afterFailure, alone);
        try
        {
            if (session.HasEnded)
            {
                session.Dispose();
                Rollover.Run(folder);
                session = LedgerSession.Open(folder, afterFailure, alone);
            }

            _ = toBeSealed && session.Head.Serial > 0 ? session.LedgerId() : null;
            session.ReadWhatHolds(snapshots);
            return session;
        }
        catch
        {
            session.Dispose();
            throw;
        }
    }
}

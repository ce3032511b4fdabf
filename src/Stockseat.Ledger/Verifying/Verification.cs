namespace Stockseat.Ledger.Verifying;

/// <summary>The result of a verification.</summary>
/// <param name="Entries">How many entries were read.</param>
/// <param name="Ledger">The ledger's id.</param>
/// <param name="HeadSerial">The last serial.</param>
/// <param name="HeadHash">The last hash, in lower-case hexadecimal.</param>
/// <param name="Faults">All faults, in order; at most <see cref="LedgerVerifier.MostFaults"/>.</param>
/// <param name="Findings">Findings that are not faults.</param>
/// <param name="Unreadable">Why something could not be checked, for example an entry of a version that this program does not know; null: all was
/// checked.</param>
public sealed record Verification(
    long Entries, string? Ledger, long HeadSerial, string HeadHash, IReadOnlyList<LedgerFault> Faults, IReadOnlyList<string> Findings, string? Unreadable)
{
    /// <summary>The valid seals; null when there are none.</summary>
    public SealsFound? Seals { get; init; }

    /// <summary>Whether the ledger is intact.</summary>
    public bool Whole => Faults.Count == 0 && Unreadable is null;

    /// <summary>0 intact, 1 not intact, 2 could not be checked.</summary>
    public int ExitCode => Faults.Count > 0 ? 1 : Unreadable is null ? 0 : 2;
}

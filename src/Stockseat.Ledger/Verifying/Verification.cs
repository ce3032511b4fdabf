namespace Stockseat.Ledger.Verifying;

/// <summary>What a verification found.</summary>
/// <param name="Entries">How many entries were read.</param>
/// <param name="Ledger">The ledger's id.</param>
/// <param name="HeadSerial">The last serial.</param>
/// <param name="HeadHash">The last hash, in lower-case hexadecimal.</param>
/// <param name="Faults">All faults, in order; at most <see cref="LedgerVerifier.MostFaults"/>.</param>
/// <param name="Findings">What is worth knowing and is no fault.</param>
/// <param name="Unreadable">What could not be checked, for example an entry of a version that this program does not know; null when there is nothing.</param>
public sealed record Verification(
    long Entries, string? Ledger, long HeadSerial, string HeadHash, IReadOnlyList<LedgerFault> Faults, IReadOnlyList<string> Findings, string? Unreadable)
{
    /// <summary>Its good seals; null when there is none.</summary>
    public SealsFound? Seals { get; init; }

    /// <summary>Whether the ledger is whole.</summary>
    public bool Whole => Faults.Count == 0 && Unreadable is null;

    /// <summary>0 whole, 1 not whole, 2 could not be checked.</summary>
    public int ExitCode => Faults.Count > 0 ? 1 : Unreadable is null ? 0 : 2;
}

using Stockseat.Ledger.Verifying;
using Stockseat.V1;

namespace Stockseat.Cli.Client;

/// <summary>What a verification found, as the service sent it.</summary>
internal static class VerificationReading
{
    public static Verification Of(VerifyResponse r) => new(
        r.Entries, r.Ledger, r.HeadSerial, r.HeadHash, [.. r.Faults.Select(f => new LedgerFault(f.Serial, f.Kind, f.Text))], [.. r.Findings],
        r.Unreadable.Length == 0 ? null : r.Unreadable)
    {
        Seals = r.Seals is null ? null : new(r.Seals.Count, r.Seals.Sealed, r.Seals.Key),
    };
}

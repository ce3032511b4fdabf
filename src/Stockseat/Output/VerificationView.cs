using Stockseat.Cli.Output.Shapes;
using Stockseat.Ledger.Verifying;

namespace Stockseat.Cli.Output;

/// <summary>What a verification found, for people and for machines.</summary>
internal static class VerificationView
{
    /// <summary>Prints the result and returns the exit code.</summary>
    public static int Print(Verification v, bool json)
    {
        if (json)
        {
            Json.Line(Of(v));
            return v.ExitCode;
        }

        foreach (var fault in v.Faults)
        {
            Plain.Line($"fault at {(fault.Serial == 0 ? "the file" : $"entry {fault.Serial}")}: {fault.Kind}: {fault.Text}");
        }

        if (v.Unreadable is { } unreadable)
        {
            Plain.Line($"could not be checked: {unreadable}");
        }

        Plain.Line(v.ExitCode switch
        {
            0 => $"intact: {v.Entries} entries of ledger {v.Ledger}, head {v.HeadSerial} {v.HeadHash}",
            1 => $"not intact: {v.Faults.Count} fault{(v.Faults.Count == 1 ? "" : "s")} in {v.Entries} entries",
            _ => $"could not be checked: {v.Entries} entries",
        });
        foreach (var finding in v.Findings)
        {
            Plain.Line($"finding: {finding}");
        }

        return v.ExitCode;
    }

    public static VerificationShape Of(Verification v) => new(
        v.Whole, v.Entries, v.Ledger, v.HeadSerial, v.HeadHash, v.Seals is { } s ? new(s.Count, s.Sealed, s.Key) : null,
        v.Faults.Select(f => new LedgerFaultShape(f.Serial, f.Kind, f.Text)), v.Findings, v.Unreadable);
}

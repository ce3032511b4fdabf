using System.Text.Json.Nodes;
using Stockseat.Ledger.Verifying;

namespace Stockseat.Cli.Output;

/// <summary>What a verification found, for people and for machines.</summary>
internal static class VerificationView
{
    /// <summary>Prints it; its exit code.</summary>
    public static int Print(Verification v, bool json)
    {
        if (json)
        {
            Json.Line(ToJson(v));
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
            0 => $"whole: {v.Entries} entries of ledger {v.Ledger}, head {v.HeadSerial} {v.HeadHash}",
            1 => $"not whole: {v.Faults.Count} fault{(v.Faults.Count == 1 ? "" : "s")} in {v.Entries} entries",
            _ => $"could not be checked: {v.Entries} entries",
        });
        foreach (var finding in v.Findings)
        {
            Plain.Line($"finding: {finding}");
        }

        return v.ExitCode;
    }

    public static JsonObject ToJson(Verification v) => new()
    {
        ["whole"] = v.Whole,
        ["entries"] = v.Entries,
        ["ledger"] = v.Ledger,
        ["headSerial"] = v.HeadSerial,
        ["headHash"] = v.HeadHash,
        ["seals"] = v.Seals is { } s ? new JsonObject { ["count"] = s.Count, ["sealed"] = s.Sealed, ["key"] = s.Key } : null,
        ["faults"] = Json.Array(v.Faults, f => new JsonObject { ["serial"] = f.Serial, ["kind"] = f.Kind, ["text"] = f.Text }),
        ["findings"] = Json.Array(v.Findings, f => JsonValue.Create(f)!),
        ["unreadable"] = v.Unreadable,
    };
}

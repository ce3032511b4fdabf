using Stockseat.Ledger.Seals;
using Stockseat.Ledger.Verifying;
using Stockseat.V1;

namespace Stockseat.Service.Grpc;

/// <summary>The request and the result of a verification, on the wire.</summary>
internal static class VerifyMessages
{
    /// <summary>Reads what was asked for. One range at a time: the other cores are for answers.</summary>
    public static VerifyOptions Options(VerifyRequest request)
    {
        if (request is { HasTail: true, Tail: < 0 })
        {
            throw Calls.Malformed($"tail is {request.Tail}; 0 or a number of entries was expected");
        }

        return new()
        {
            Anchors = [.. request.Anchors.Select((text, i) => Anchor.TryParse(text, out var fault) ?? throw Calls.Malformed($"anchors[{i}] {fault}"))],
            Keys = [.. request.Keys.Select((text, i) => PublicSealKey.FromPem(text) ?? throw Calls.Malformed($"keys[{i}] is not a public key on P-256 in "
                + $"PEM"))],
            RequireSeal = request.RequireSeal,
            Tail = request.HasTail ? request.Tail : VerifyOptions.UsualTail,
            Ranges = 1,
        };
    }

    public static VerifyResponse Response(Verification v)
    {
        var response = new VerifyResponse
        {
            Whole = v.Whole,
            Entries = v.Entries,
            Ledger = v.Ledger ?? "",
            HeadSerial = v.HeadSerial,
            HeadHash = v.HeadHash,
            Unreadable = v.Unreadable ?? "",
            Seals = v.Seals is { } seals ? new() { Count = seals.Count, Sealed = seals.Sealed, Key = seals.Key } : null,
        };
        response.Faults.AddRange(v.Faults.Select(f => new Fault { Serial = f.Serial, Kind = f.Kind, Text = f.Text }));
        response.Findings.AddRange(v.Findings);
        return response;
    }
}

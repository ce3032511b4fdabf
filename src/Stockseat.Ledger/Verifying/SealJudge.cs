namespace Stockseat.Ledger.Verifying;

/// <summary>
/// Judges seals in the order of the chain. A key may seal when it was given; when no keys were given, it may seal from the seal on that first carries it.
/// </summary>
internal sealed class SealJudge(VerifyOptions options, KeyRing ring)
{
    private readonly HashSet<string> _given = [.. options.Keys.Select(k => k.Fingerprint)];
    private readonly HashSet<string> _brought = [];
    private readonly List<string> _findings = [];
    private long _count;
    private long _newest;
    private long _sealed;
    private string? _key;

    /// <summary>The valid seals; null when there are none.</summary>
    public SealsFound? Found => _key is null ? null : new(_count, _sealed, _key);

    /// <summary>Judges the next seal.</summary>
    public void Take(SealSeen seal, string? ledger, FaultList faults)
    {
        if (seal.Brought?.Fingerprint == seal.Body.Key)
        {
            _brought.Add(seal.Body.Key);
        }

        if (Fault(seal, ledger) is var (kind, text))
        {
            faults.Add(seal.Serial, kind, $"the seal {seal.Serial} {text}");
            return;
        }

        if (_key is not null && _key != seal.Body.Key)
        {
            _findings.Add(
                $"another key seals from entry {seal.Serial} on: {KeyRing.Short(seal.Body.Key)}, before that {KeyRing.Short(_key)}; somebody should know why");
        }

        _count++;
        (_newest, _sealed, _key) = (seal.Serial, seal.Body.Sealed, seal.Body.Key);
    }

    /// <summary>Adds the remaining findings, once the last entry is known.</summary>
    public void End(long head, FaultList faults, List<string> findings)
    {
        if (_key is null)
        {
            if (options.RequireSeal)
            {
                faults.Add(head, FaultKinds.Unsealed, "this ledger has no valid seal, and one is required");
            }

            findings.Add("unsealed: this ledger has no valid seal; without one, anybody who can write the file can forge all of it");
            return;
        }

        findings.Add($"sealed: {_count} seal{(_count == 1 ? "" : "s")}, up to entry {_sealed}, by the key {KeyRing.Short(_key)}" + (_given.Count > 0
            ? ", which was given"
            : ": the key is the one that the ledger itself names; to be sure, give --key with a copy that was kept elsewhere"));
        findings.AddRange(_findings);
        var tail = head - _newest;
        if (tail > options.Tail && options.RequireSeal)
        {
            faults.Add(_newest + 1, FaultKinds.UnsealedTail,
                $"the {tail} entries after the newest seal {_newest} are unsealed; at most {options.Tail} are allowed (--tail)");
        }

        if (tail > 0)
        {
            findings.Add($"unsealed tail: {tail} entr{(tail == 1 ? "y" : "ies")} after the newest seal {_newest} can still be changed unnoticed"
                + (tail > options.Tail ? $"; that is more than {options.Tail}: does the service still seal?" : ""));
        }
    }

    private (string Kind, string Text)? Fault(SealSeen seal, string? ledger)
    {
        var body = seal.Body;
        if (body.PublicKey is not null && seal.Brought?.Fingerprint != body.Key)
        {
            return (FaultKinds.BadSeal, "carries a public key that is not on P-256, or is not the key that it names");
        }

        if (_given.Count > 0 && !_given.Contains(body.Key))
        {
            return (FaultKinds.UnknownKey, $"was made with the key {KeyRing.Short(body.Key)}, which is not one of those given");
        }

        if (_given.Count == 0 && !_brought.Contains(body.Key))
        {
            return (FaultKinds.UnknownKey, $"was made with the key {KeyRing.Short(body.Key)}, which no seal up to here carries; give it with --key");
        }

        if (ledger is not null && body.Ledger != ledger)
        {
            return (FaultKinds.BadSeal, $"belongs to ledger {body.Ledger}, but this is ledger {ledger}");
        }

        if (!seal.HeadFits)
        {
            return (FaultKinds.BadSeal,
                $"covers entry {body.Sealed} with the hash {KeyRing.Short(body.Head)}, which is not that of the entry before it in the chain");
        }

        return seal.Signed ?? KeyRing.IsSigned(body, ring.Find(body.Key)!)
            ? null : (FaultKinds.BadSeal, "has a signature that its key did not make for this content: it was made or changed by somebody without the key");
    }
}

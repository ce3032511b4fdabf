using System.Collections.Concurrent;
using Stockseat.Answers.Events;
using Stockseat.Ledger.Seals;

namespace Stockseat.Ledger.Verifying;

/// <summary>Public keys by their fingerprints. It knows only which key is which; whether a key may seal is judged in the order of the chain.</summary>
internal sealed class KeyRing
{
    private readonly ConcurrentDictionary<string, PublicSealKey> _keys;

    public KeyRing(IEnumerable<PublicSealKey> given) => _keys = new(given.DistinctBy(k => k.Fingerprint).ToDictionary(k => k.Fingerprint));

    public PublicSealKey? Find(string fingerprint) => _keys.GetValueOrDefault(fingerprint);

    /// <summary>Checks the signature of a seal.</summary>
    /// <param name="seal">The seal.</param>
    /// <param name="serial">The serial of its row.</param>
    /// <param name="stored">The hash that is stored with the entry before.</param>
    /// <param name="computed">The hash that this entry should have: when only the stored one was changed, the fault is in that entry's row.</param>
    /// <param name="before">The serial of the entry before.</param>
    public SealSeen See(SealBody seal, long serial, ReadOnlySpan<byte> stored, ReadOnlySpan<byte> computed, long before)
    {
        var fits = seal.Sealed == before && (seal.Head == Convert.ToHexStringLower(stored) || seal.Head == Convert.ToHexStringLower(computed));
        var brought = seal.PublicKey is null ? null : PublicSealKey.FromBase64(seal.PublicKey);
        if (brought?.Fingerprint == seal.Key)
        {
            _keys.TryAdd(brought.Fingerprint, brought);
        }

        return new(seal, serial, fits, brought, Find(seal.Key) is { } key ? IsSigned(seal, key) : null);
    }

    public static bool IsSigned(SealBody seal, PublicSealKey key) => key.Verifies(SealMessage.Of(seal.Ledger, seal.Sealed, seal.Head, seal.At), seal.Signature);

    /// <summary>The digits by which people compare keys.</summary>
    public static string Short(string fingerprint) => fingerprint[..Math.Min(12, fingerprint.Length)];
}

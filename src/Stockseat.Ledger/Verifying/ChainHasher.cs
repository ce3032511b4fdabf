using System.Security.Cryptography;
using Stockseat.Ledger.Store;

namespace Stockseat.Ledger.Verifying;

/// <summary>Hashes one entry after another without garbage. Made once, since making a new hash object takes half as long as hashing a body.</summary>
internal sealed class ChainHasher : IDisposable
{
    private readonly IncrementalHash _hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);

    /// <summary>Keeps the hash that a row stores; a hash of the wrong length counts as none.</summary>
    public static void Keep(ReadOnlySpan<byte> hash, Span<byte> target)
    {
        target.Clear();
        if (hash.Length == ChainHash.Size)
        {
            hash.CopyTo(target);
        }
    }

    /// <summary>The hash of an entry, the same as from <see cref="ChainHash.Of"/>.</summary>
    public void Hash(ReadOnlySpan<byte> previous, ReadOnlySpan<byte> body, Span<byte> target)
    {
        Span<byte> prefix = stackalloc byte[ChainHash.PrefixSize];
        ChainHash.WritePrefix(prefix, previous);
        _hash.AppendData(prefix);
        _hash.AppendData(body);
        _hash.GetHashAndReset(target);
    }

    /// <summary>Whether the hash that a row stores follows from a given one.</summary>
    public bool Follows(in EntryBytes row, ReadOnlySpan<byte> previous)
    {
        Span<byte> hash = stackalloc byte[ChainHash.Size];
        Hash(previous, row.Body, hash);
        return row.Hash.SequenceEqual(hash);
    }

    public void Dispose() => _hash.Dispose();
}

using System.Security.Cryptography;

namespace Stockseat.Ledger.Store;

/// <summary>hash = SHA-256(0x01 ‖ previous hash ‖ the bytes of the body); before the first entry, the previous hash is 32 zero bytes.</summary>
public static class ChainHash
{
    /// <summary>The number of bytes of a hash.</summary>
    public const int Size = 32;

    /// <summary>How many bytes are hashed before the body.</summary>
    public const int PrefixSize = 1 + Size;

    private const byte EntryMark = 0x01;

    /// <summary>The previous hash of the first entry.</summary>
    public static byte[] Start => new byte[Size];

    /// <summary>Writes the bytes that are hashed before the body.</summary>
    public static void WritePrefix(Span<byte> target, ReadOnlySpan<byte> previous)
    {
        target[0] = EntryMark;
        previous.CopyTo(target[1..]);
    }

    /// <summary>The hash of an entry.</summary>
    public static byte[] Of(ReadOnlySpan<byte> previous, ReadOnlySpan<byte> body)
    {
        Span<byte> prefix = stackalloc byte[PrefixSize];
        WritePrefix(prefix, previous);
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        hash.AppendData(prefix);
        hash.AppendData(body);
        return hash.GetHashAndReset();
    }
}

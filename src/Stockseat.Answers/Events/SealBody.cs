using System.Text.Json.Serialization;
using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Events;

/// <summary>A signature over the ledger up to an entry: without the key nobody can forge what is before it.</summary>
public sealed record SealBody : EntryBody
{
    [JsonPropertyOrder(KindOrder)]
    public override string Kind => Kinds.Seal;

    /// <summary>The ledger's id.</summary>
    public required string Ledger { get; init; }

    /// <summary>The last entry that the seal covers, together with all entries before it: it is the entry before the seal.</summary>
    public required long Sealed { get; init; }

    /// <summary>The hash of that entry, in lower-case hexadecimal.</summary>
    public required string Head { get; init; }

    /// <summary>The key: SHA-256 of its public half (SubjectPublicKeyInfo, DER), in lower-case hexadecimal.</summary>
    public required string Key { get; init; }

    /// <summary>The public half, in base64; only in the first seal with that key, and in the first one after a seal with another key.</summary>
    public string? PublicKey { get; init; }

    /// <summary>
    /// ECDSA over P-256 with SHA-256, DER, in base64: the signature of the text that <c>SealMessage</c> makes from ledger, serial, hash and instant.
    /// </summary>
    public required string Signature { get; init; }
}

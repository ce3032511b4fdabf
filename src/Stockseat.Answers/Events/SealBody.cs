using System.Text.Json.Serialization;
using Stockseat.Answers.Entries;

namespace Stockseat.Answers.Events;

/// <summary>A signature over the ledger's head: whoever has not the key can't forge what is before it.</summary>
public sealed record SealBody : EntryBody
{
    [JsonPropertyOrder(KindOrder)]
    public override string Kind => Kinds.Seal;

    /// <summary>The ledger's id.</summary>
    public required string Ledger { get; init; }

    /// <summary>The last entry that it covers, and with it all before: the one before the seal.</summary>
    public required long Sealed { get; init; }

    /// <summary>The hash of that entry, in lower-case hexadecimal.</summary>
    public required string Head { get; init; }

    /// <summary>Which key: SHA-256 of its public half (SubjectPublicKeyInfo, DER), in lower-case hexadecimal.</summary>
    public required string Key { get; init; }

    /// <summary>The public half, in base64; only in the first seal with that key since another one, or ever.</summary>
    public string? PublicKey { get; init; }

    /// <summary>ECDSA over P-256 with SHA-256, DER, in base64, of the text that <c>SealMessage</c> makes of ledger, serial, hash and instant.</summary>
    public required string Signature { get; init; }
}

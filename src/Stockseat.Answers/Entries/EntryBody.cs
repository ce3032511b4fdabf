using System.Text.Json.Serialization;

namespace Stockseat.Answers.Entries;

/// <summary>The body of one entry. It holds everything, and it alone is authoritative. Metres, unit quaternions, UTC.</summary>
public abstract record EntryBody
{
    /// <summary>
    /// The version of bodies that this program writes. It also names the rules by which an entry was decided and what it means: a replay decides each entry
    /// by the rules of its own version. Version 2 tells what was received from what was carried out.
    /// </summary>
    public const int CurrentVersion = 2;

    /// <summary>The oldest version that this program reads, decides and applies as the program did that wrote it.</summary>
    public const int OldestVersion = 1;

    /// <summary>The place of the kind in a body. An override has to state it again, since it does not inherit it.</summary>
    protected const int KindOrder = -7;

    [JsonPropertyName("v"), JsonPropertyOrder(-10)]
    public int Version { get; set; } = CurrentVersion;

    /// <summary>Whether this program knows a version.</summary>
    public static bool Knows(long? version) => version is >= OldestVersion and <= CurrentVersion;

    /// <summary>The entry's number in the ledger; set by the writer.</summary>
    [JsonPropertyOrder(-9)]
    public long Serial { get; set; }

    /// <summary>The instant of the decision; set by the writer.</summary>
    [JsonPropertyOrder(-8)]
    public string At { get; set; } = "";

    [JsonPropertyOrder(KindOrder)]
    public abstract string Kind { get; }

    /// <summary>The fixture that it is about.</summary>
    [JsonPropertyOrder(-6)]
    public string? Fixture { get; init; }

    /// <summary>The number of the revision that it comes from.</summary>
    [JsonPropertyOrder(-5)]
    public int? Revision { get; init; }

    /// <summary>The digest of that revision.</summary>
    [JsonPropertyOrder(-4)]
    public string? Digest { get; init; }

    /// <summary>Who asked: the name in the configuration, or the address.</summary>
    [JsonPropertyOrder(-3)]
    public string? Client { get; set; }

    /// <summary>The cell of that client.</summary>
    [JsonPropertyOrder(-3)]
    public string? Cell { get; set; }

    /// <summary>The address and port that the request came from.</summary>
    [JsonPropertyOrder(-3)]
    public string? Address { get; set; }

    /// <summary>The pin of the certificate that the client showed, sha256: and 64 hexadecimal digits; null: it came by its address.</summary>
    [JsonPropertyOrder(-3)]
    public string? Certificate { get; set; }

    /// <summary>The tag that the client sent.</summary>
    [JsonPropertyOrder(-2)]
    public string? Tag { get; set; }

    /// <summary>The request id that the client sent.</summary>
    [JsonPropertyOrder(-2)]
    public string? Request { get; set; }
}

using System.Globalization;
using System.Text;
using Stockseat.Answers.Events;

namespace Stockseat.Ledger.Seals;

/// <summary>
/// The serial and hash of an entry, which somebody keeps outside the machine. Plain text: the lines of <see cref="SealMessage"/>, then the key and the
/// signature when the ledger is sealed. Even without a signature it reveals a cut tail or an old copy, as long as the anchor itself is kept safe.
/// </summary>
/// <param name="Ledger">The ledger's id.</param>
/// <param name="Serial">The entry.</param>
/// <param name="Hash">Its hash, in lower-case hexadecimal.</param>
/// <param name="At">The instant of the seal, or of the entry when there is no seal.</param>
/// <param name="Key">The key, by its fingerprint; null: unsigned.</param>
/// <param name="Signature">DER, in base64; null: unsigned.</param>
public sealed record Anchor(string Ledger, long Serial, string Hash, string At, string? Key, string? Signature)
{
    private static readonly string[] Names = ["ledger", "serial", "hash", "at", "key", "signature"];

    /// <summary>The anchor made from a seal, to be kept outside.</summary>
    public static Anchor Of(SealBody seal) => new(seal.Ledger, seal.Sealed, seal.Head, seal.At, seal.Key, seal.Signature);

    /// <summary>Reads an anchor; null, with the reason, when the text is not one.</summary>
    public static Anchor? TryParse(string text, out string? fault)
    {
        var lines = text.Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        fault = null;
        if (lines.Length is not (5 or 7) || lines[0] != "stockseat seal 1")
        {
            fault = $"has {lines.Length} lines, and the first is '{(lines.Length > 0 ? lines[0] : "")}'; 5 or 7 lines that begin with 'stockseat seal 1' were "
                + $"expected";
            return null;
        }

        var values = new string[Names.Length];
        for (var i = 1; i < lines.Length; i++)
        {
            var parts = lines[i].Split(' ', 2);
            if (parts.Length != 2 || parts[0] != Names[i - 1])
            {
                fault = $"line {i + 1} is '{lines[i]}'; '{Names[i - 1]} …' was expected";
                return null;
            }

            values[i - 1] = parts[1];
        }

        if (!long.TryParse(values[1], NumberStyles.None, CultureInfo.InvariantCulture, out var serial) || values[2].Length != 64)
        {
            fault = "its serial is not a number, or its hash does not have 64 digits";
            return null;
        }

        return new(values[0], serial, values[2], values[3], values[4], values[5]);
    }

    /// <summary>The text to keep.</summary>
    public string ToText() =>
        Encoding.ASCII.GetString(SealMessage.Of(Ledger, Serial, Hash, At)) + (Signature is null ? "" : $"key {Key}\nsignature {Signature}\n");

    /// <summary>Whether it has a valid signature of a key.</summary>
    public bool SignedBy(PublicSealKey key) =>
        Signature is not null && Key == key.Fingerprint && key.Verifies(SealMessage.Of(Ledger, Serial, Hash, At), Signature);
}

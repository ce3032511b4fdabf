using System.Globalization;
using System.Text;

namespace Stockseat.Ledger.Seals;

/// <summary>The message that is signed: five lines of ASCII, each ended by LF, so that anybody can write them down and check a seal with openssl.</summary>
public static class SealMessage
{
    /// <summary>The bytes of the message.</summary>
    /// <param name="ledger">The ledger's id.</param>
    /// <param name="serial">The last entry that is covered.</param>
    /// <param name="hash">The hash of that entry, in lower-case hexadecimal.</param>
    /// <param name="at">The instant of the seal, as its entry has it.</param>
    public static byte[] Of(string ledger, long serial, string hash, string at) => Encoding.ASCII.GetBytes(string.Create(
        CultureInfo.InvariantCulture, $"stockseat seal 1\nledger {ledger}\nserial {serial}\nhash {hash}\nat {at}\n"));
}

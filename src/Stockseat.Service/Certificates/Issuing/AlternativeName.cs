using System.Formats.Asn1;
using System.Net;
using System.Security.Cryptography;

namespace Stockseat.Service.Certificates.Issuing;

/// <summary>The alternative names of a certificate (RFC 5280, 4.2.1.6), each with its kind before it.</summary>
internal static class AlternativeName
{
    private const int Email = 1;
    private const int Dns = 2;
    private const int Uri = 6;
    private const int Address = 7;

    /// <summary>Reads them.</summary>
    /// <param name="extension">The value of the extension, in DER.</param>
    /// <exception cref="CryptographicException">It is damaged.</exception>
    public static IReadOnlyList<string> Read(ReadOnlyMemory<byte> extension)
    {
        try
        {
            var outer = new AsnReader(extension, AsnEncodingRules.DER);
            var names = outer.ReadSequence();
            outer.ThrowIfNotEmpty();
            var all = new List<string>();
            while (names.HasData)
            {
                all.Add(Next(names));
            }

            return all;
        }
        catch (AsnContentException e)
        {
            throw new CryptographicException("the alternative names can't be read", e);
        }
    }

    private static string Next(AsnReader names)
    {
        var tag = names.PeekTag();
        string Text() => names.ReadCharacterString(UniversalTagNumber.IA5String, tag);
        switch (tag.TagValue)
        {
            case Email:
                return $"email:{Text()}";
            case Dns:
                return $"dns:{Text()}";
            case Uri:
                return $"uri:{Text()}";
            case Address:
                var bytes = names.ReadOctetString(tag);
                return bytes.Length is 4 or 16 ? $"ip:{new IPAddress(bytes)}" : throw new AsnContentException("an address has 4 or 16 bytes");
            default:
                names.ReadEncodedValue();
                return "other";
        }
    }
}

using System.Formats.Asn1;
using System.Net;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace Stockseat.Service.Certificates;

/// <summary>The alternative names of a certificate (RFC 5280, 4.2.1.6), each with its kind before it.</summary>
internal static class AlternativeName
{
    private const string Extension = "2.5.29.17";

    private const int Email = 1;
    private const int Dns = 2;
    private const int Uri = 6;
    private const int Address = 7;

    /// <summary>Those of a certificate, in their order; none when it has none.</summary>
    /// <exception cref="CryptographicException">They are damaged.</exception>
    public static IReadOnlyList<string> Of(X509Certificate2 certificate) =>
        certificate.Extensions.FirstOrDefault(e => e.Oid?.Value == Extension) is { } found ? Read(found.RawData) : [];

    private static List<string> Read(ReadOnlyMemory<byte> extension)
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

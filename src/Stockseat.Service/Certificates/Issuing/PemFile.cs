using System.Security.Cryptography;
using System.Text;
using Stockseat.Fixtures.Files;

namespace Stockseat.Service.Certificates.Issuing;

/// <summary>A section of a PEM text, from its BEGIN line to its END line.</summary>
/// <param name="Label">What it is: CERTIFICATE, PRIVATE KEY.</param>
/// <param name="Text">The section itself.</param>
/// <param name="Data">What it holds, in DER.</param>
internal sealed record PemSection(string Label, string Text, byte[] Data)
{
    public bool IsPrivateKey => Label.EndsWith("PRIVATE KEY", StringComparison.Ordinal);
}

/// <summary>Reads PEM files.</summary>
internal static class PemFile
{
    /// <summary>A list of all public authorities has about 200 kB.</summary>
    private const int Longest = 1024 * 1024;

    /// <summary>Reads a file as text.</summary>
    /// <param name="path">The file.</param>
    /// <param name="expected">What it should be, for messages: "a certificate in PEM".</param>
    /// <exception cref="InvalidDataException">It can't be read, or is empty; the message says what to do.</exception>
    public static string Read(string path, string expected)
    {
        try
        {
            var text = Encoding.UTF8.GetString(RegularFile.Read(path, Longest));
            return text.Length > 0 ? text : throw new InvalidDataException($"{path} is empty; {expected} was expected: name another file");
        }
        catch (Exception e) when (e is FileNotFoundException or DirectoryNotFoundException)
        {
            throw new InvalidDataException($"{path} does not exist; {expected} was expected: correct the name");
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new InvalidDataException($"{path} {RegularFile.What(path, e)}; {expected} was expected");
        }
    }

    /// <summary>The sections of a text; what is between them is ignored, as everywhere.</summary>
    public static IReadOnlyList<PemSection> Sections(string text)
    {
        var all = new List<PemSection>();
        for (var rest = text.AsSpan(); PemEncoding.TryFind(rest, out var found); rest = rest[found.Location.End..])
        {
            var data = Convert.FromBase64String(rest[found.Base64Data].ToString());
            all.Add(new(rest[found.Label].ToString(), rest[found.Location].ToString(), data));
        }

        return all;
    }
}

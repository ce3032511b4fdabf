namespace Stockseat.Service.Certificates;

/// <summary>What an entry of Clients states as the certificate of a caller: a pin, or a name for which an authority vouches.</summary>
public static class ProofText
{
    /// <summary>The beginning of a DNS name.</summary>
    public const string Dns = "dns:";

    /// <summary>The beginning of a URI.</summary>
    public const string Uri = "uri:";

    /// <summary>What may be stated.</summary>
    public const string Expected = $"a pin ({CertificatePin.Expected}), dns: and a name, or uri: and a URI";

    /// <summary>Whether it is a name, which needs an authority.</summary>
    public static bool IsName(string proof) => !proof.StartsWith(CertificatePin.Prefix, StringComparison.Ordinal);

    /// <summary>A text of the configuration in its usual form; null when it is neither pin nor name. A wildcard is no name of a client.</summary>
    public static string? Read(string text)
    {
        if (text.StartsWith(Dns, StringComparison.OrdinalIgnoreCase))
        {
            var name = text[Dns.Length..].ToLowerInvariant();
            return System.Uri.CheckHostName(name) == UriHostNameType.Dns && name.All(char.IsAscii) ? Dns + name : null;
        }

        return text.StartsWith(Uri, StringComparison.OrdinalIgnoreCase)
            ? System.Uri.TryCreate(text[Uri.Length..], UriKind.Absolute, out _) ? Uri + text[Uri.Length..] : null
            : CertificatePin.Read(text);
    }
}

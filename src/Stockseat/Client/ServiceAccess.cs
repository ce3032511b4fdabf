namespace Stockseat.Cli.Client;

/// <summary>Where the service is, whom this side trusts there, and how it shows who it is.</summary>
/// <param name="Server">The service's address.</param>
/// <param name="Authority">The authority in PEM that issued the service's certificate; null: those that this machine trusts.</param>
/// <param name="Certificate">This side's own certificate in PEM; null: it is known by its address.</param>
/// <param name="Key">The key of that certificate in PEM; null: the file beside it that ends with .key.</param>
internal sealed record ServiceAccess(string Server, string? Authority, string? Certificate, string? Key)
{
    /// <summary>Whether the address is one.</summary>
    public bool IsAddress => Uri.TryCreate(Server, UriKind.Absolute, out var uri) && uri.Scheme is ("http" or "https");

    /// <summary>Whether it is reached over TLS.</summary>
    public bool IsTls => Server.StartsWith(Uri.UriSchemeHttps + Uri.SchemeDelimiter, StringComparison.OrdinalIgnoreCase);

    /// <summary>What is wrong with what was stated, before anything is asked; null: nothing.</summary>
    public string? Fault =>
        !IsAddress ? $"--server is '{Server}'; an address was expected, such as http://127.0.0.1:28610 or https://stockseat.example:28610"
        : !IsTls && (Authority ?? Certificate ?? Key) is { } stated
            ? $"'{stated}' is of no use with {Server}, which has no TLS; write https:// where the service has a certificate"
        : Key is not null && Certificate is null ? $"--key is '{Key}', but no --certificate goes with it; name both"
        : null;
}

namespace Stockseat.Service.Certificates;

/// <summary>Where the service's certificate is, and who vouches for clients. The files are read again when they change.</summary>
/// <param name="Certificate">The service's certificate in PEM, with the certificates between it and its authority after it.</param>
/// <param name="Key">Its private key in PEM, without a password.</param>
/// <param name="Authorities">The authorities whose clients are known by name, in PEM; null: clients are known by their pins only.</param>
public sealed record TlsSettings(string Certificate, string Key, string? Authorities);

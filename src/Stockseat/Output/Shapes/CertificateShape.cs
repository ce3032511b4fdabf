namespace Stockseat.Cli.Output.Shapes;

/// <summary>A certificate: instants in UTC; the file of its key, and whether that belongs to it, where there is one.</summary>
internal sealed record CertificateShape(
    string File, int Number, string Subject, string Issuer, IReadOnlyList<string> Names, IReadOnlyList<string> Uses, string Key, string Pin, string From,
    string Until, int DaysLeft, IReadOnlyList<CertificateAdviceShape> Advice);

/// <summary>What is wrong with it, and whether that makes it useless as it is.</summary>
internal sealed record CertificateAdviceShape(bool Fault, string Text);

/// <summary>A certificate that was made; no key's file when it was made for a key that exists.</summary>
internal sealed record CertificateMadeShape(string Certificate, string? Key, string Pin, IReadOnlyList<string> Names, string From, string Until, bool Cut);

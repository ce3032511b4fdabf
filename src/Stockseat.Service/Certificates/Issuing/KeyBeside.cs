using System.Security.Cryptography.X509Certificates;

namespace Stockseat.Service.Certificates.Issuing;

/// <summary>The key's file beside a certificate: the same name with .key.</summary>
public static class KeyBeside
{
    /// <summary>Its path; null when there is none.</summary>
    public static string? Find(string certificate) =>
        Path.ChangeExtension(certificate, OwnCertificate.KeyExtension) is var key && key != certificate && Path.Exists(key) ? key : null;

    /// <summary>What is wrong with it; null when it belongs to the certificate.</summary>
    /// <param name="key">The key's file.</param>
    /// <param name="certificate">The certificate.</param>
    public static CertificateAdvice? Check(string key, X509Certificate2 certificate)
    {
        try
        {
            using var found = PrivateKey.Load(key);
            return found.BelongsTo(certificate) ? null
                : new(true, $"the key {key} does not belong to it: their public keys differ; put its own key there, or issue it again with --key {key}");
        }
        catch (InvalidDataException e)
        {
            return new(false, $"whether its key belongs to it could not be checked: {e.Message}");
        }
    }
}

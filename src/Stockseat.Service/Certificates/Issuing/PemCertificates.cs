using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace Stockseat.Service.Certificates.Issuing;

/// <summary>Reads the certificates of a PEM file.</summary>
public static class PemCertificates
{
    private const string Expected = "a certificate in PEM (BEGIN CERTIFICATE)";

    /// <summary>All certificates of a file, in their order; at least one.</summary>
    /// <param name="path">The file.</param>
    /// <exception cref="InvalidDataException">It can't be read, or has none; the message says what to do.</exception>
    public static IReadOnlyList<X509Certificate2> Load(string path)
    {
        var sections = PemFile.Sections(PemFile.Read(path, Expected));
        var found = new List<X509Certificate2>();
        foreach (var section in sections.Where(s => s.Label == "CERTIFICATE"))
        {
            found.Add(Read(section.Data) ?? throw new InvalidDataException(
                $"certificate {found.Count + 1} of {path} is damaged; get the file again from where the certificate was made"));
        }

        return found.Count > 0 ? found : throw new InvalidDataException(
            sections.Any(s => s.IsPrivateKey) ? $"{path} has a private key and no certificate; name the certificate's file, which usually ends with .pem"
                : $"{path} has no complete certificate in PEM, which is text from a line BEGIN CERTIFICATE to a line END CERTIFICATE; name another file, or, "
                    + $"when this one is binary (DER), write it as PEM: openssl x509 -inform DER -in {path} -out NEW.pem");
    }

    private static X509Certificate2? Read(byte[] der)
    {
        X509Certificate2? certificate = null;
        try
        {
            certificate = X509CertificateLoader.LoadCertificate(der);
            _ = CertificateFacts.Of(certificate); // also reads the extensions
            return certificate;
        }
        catch (CryptographicException)
        {
            certificate?.Dispose();
            return null;
        }
    }
}

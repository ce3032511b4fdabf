using System.Net;
using System.Net.Security;
using System.Security.Cryptography.X509Certificates;
using Stockseat.Service.Certificates;
using Stockseat.Service.Clients;

namespace Stockseat.Service.Handshakes;

/// <summary>What a client's certificate proves. Pure.</summary>
public static class ProofCheck
{
    /// <summary>How TLS examines a client's certificate: by the authorities of the configuration, at this instant.</summary>
    public static X509ChainPolicy Policy(LoadedTls tls, DateTimeOffset now)
    {
        var policy = OwnCertificate.Policy(tls.Authorities, CertificateNames.ClientUse);
        (policy.VerificationTimeIgnored, policy.VerificationTime) = (false, now.UtcDateTime);
        return policy;
    }

    /// <summary>What is proven; or why the caller is turned away.</summary>
    /// <param name="certificate">What the caller showed; null: nothing.</param>
    /// <param name="errors">What TLS found wrong by <see cref="Policy"/>.</param>
    /// <param name="address">Where the caller comes from.</param>
    /// <param name="clients">The clients of the configuration.</param>
    /// <param name="now">The instant.</param>
    public static (CallerProof? Proof, TurnedAway? Why) Of(
        X509Certificate2? certificate, SslPolicyErrors errors, IPAddress address, ClientTable clients, DateTimeOffset now)
    {
        if (certificate is null)
        {
            return clients.Find(address, null) is null ? (null, TurnedAway.NoClient) : (null, null);
        }

        if (now.UtcDateTime > certificate.NotAfter.ToUniversalTime())
        {
            return (null, TurnedAway.CertificateEnded);
        }

        if (now.UtcDateTime < certificate.NotBefore.ToUniversalTime())
        {
            return (null, TurnedAway.CertificateNotYet);
        }

        if (!CertificateNames.MayBeUsed(certificate, CertificateNames.ClientUse))
        {
            return (null, TurnedAway.CertificateUse);
        }

        var pin = CertificatePin.Of(certificate);
        var vouched = (errors & SslPolicyErrors.RemoteCertificateChainErrors) == 0;
        if (!vouched && !clients.KnowsPin(pin))
        {
            return (null, TurnedAway.CertificateAuthority);
        }

        var proof = new CallerProof(pin, vouched ? [.. CertificateNames.Of(certificate)] : []);
        return clients.Find(address, proof) is null ? (null, TurnedAway.CertificateUnlisted) : (proof, null);
    }

    /// <summary>A cause in words, for the log.</summary>
    public static string Said(TurnedAway why, X509Certificate2? certificate) => why switch
    {
        TurnedAway.NoClient => "the caller showed no certificate, and no client of the configuration comes from this address without one",
        TurnedAway.CertificateEnded => $"the caller's certificate {Named(certificate)} ended at {certificate!.NotAfter.ToUniversalTime():O}; issue a new one",
        TurnedAway.CertificateNotYet =>
            $"the caller's certificate {Named(certificate)} is valid only from {certificate!.NotBefore.ToUniversalTime():O}; is a clock wrong?",
        TurnedAway.CertificateUse => $"the caller's certificate {Named(certificate)} is not for a client; issue one for a client",
        TurnedAway.CertificateAuthority =>
            $"no authority of Tls:Authorities vouches for the caller's certificate {Named(certificate)}, and no client states its pin",
        TurnedAway.CertificateUnlisted =>
            $"the caller's certificate {Named(certificate)} is good, but no client of the configuration states it together with this address",
        _ => why.Name(),
    };

    private static string Named(X509Certificate2? certificate) =>
        certificate is null ? "" : $"({certificate.Subject}, {CertificatePin.Of(certificate)})";
}

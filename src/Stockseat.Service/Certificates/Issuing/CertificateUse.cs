namespace Stockseat.Service.Certificates.Issuing;

/// <summary>What a certificate is for.</summary>
public enum CertificateUse
{
    /// <summary>It proves to callers that they reached the service.</summary>
    Service,

    /// <summary>It proves to the service who calls.</summary>
    Client,
}

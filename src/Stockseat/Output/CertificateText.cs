using Stockseat.Service.Certificates;
using Stockseat.V1;

namespace Stockseat.Cli.Output;

/// <summary>What the list of fixtures says about the service's certificate.</summary>
internal static class CertificateText
{
    public static IEnumerable<string> Of(ServiceCertificate? certificate)
    {
        if (certificate is null)
        {
            yield break;
        }

        yield return $"certificate {certificate.Subject} for {string.Join(", ", certificate.Hosts)}, {certificate.Pin}, until {certificate.Ends}: "
            + $"{CertificateEnd.Days(certificate.DaysLeft)} left";
        if (certificate.Advice.Length > 0)
        {
            yield return certificate.Advice;
        }
    }
}

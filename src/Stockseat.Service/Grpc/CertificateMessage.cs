using System.Globalization;
using Stockseat.Service.Certificates;
using Stockseat.V1;

namespace Stockseat.Service.Grpc;

/// <summary>The service's certificate in replies.</summary>
internal static class CertificateMessage
{
    public static ServiceCertificate Of(ServiceTls tls)
    {
        var now = tls.Now;
        return new()
        {
            Subject = now.Certificate.Subject,
            Hosts = { now.Hosts },
            Pin = now.Pin,
            Ends = now.End.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture),
            DaysLeft = (int)Math.Floor(tls.Left.TotalDays),
            Advice = tls.Advice ?? "",
        };
    }
}

using System.Globalization;

namespace Stockseat.Service.Certificates;

/// <summary>The time until a certificate ends.</summary>
public static class CertificateEnd
{
    /// <summary>From so many days before its end a certificate should be renewed: time for a person to notice, and to come to the machine.</summary>
    public const int DaysToRenew = 30;

    /// <summary>A number of days in words.</summary>
    public static string Days(int days) => days == 1 ? "1 day" : string.Create(CultureInfo.InvariantCulture, $"{days} days");
}

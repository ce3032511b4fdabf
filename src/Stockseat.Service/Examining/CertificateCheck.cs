using Stockseat.Service.Certificates;
using Stockseat.Service.Certificates.Issuing;

namespace Stockseat.Service.Examining;

/// <summary>Whether the service's certificate, its key and the clients' authorities can be used, and for how long.</summary>
internal static class CertificateCheck
{
    private const UnixFileMode Anybody = UnixFileMode.OtherRead | UnixFileMode.OtherWrite;

    public static IEnumerable<Finding> Look(Examined examined)
    {
        if (examined.Settings.Tls is not { } tls)
        {
            yield break;
        }

        if (Unusable(tls, examined.Time) is { } fault)
        {
            yield return Finding.Fault("Tls", fault);
            yield break;
        }

        if (!OperatingSystem.IsWindows() && (File.GetUnixFileMode(tls.Key) & Anybody) != 0)
        {
            yield return Finding.Fault(
                "Tls:Key", $"everybody on this computer can read {tls.Key}, and so pass as the service; take that right away: chmod o= {tls.Key}");
        }

        var authorities = tls.Authorities is { } path ? Ends("Tls:Authorities", path, examined) : [];
        foreach (var finding in Ends("Tls:Certificate", tls.Certificate, examined).Concat(authorities))
        {
            yield return finding;
        }
    }

    private static string? Unusable(TlsSettings tls, TimeProvider time)
    {
        try
        {
            _ = new ServiceTls(tls, time);
            return null;
        }
        catch (InvalidDataException e)
        {
            return e.Message;
        }
    }

    private static IEnumerable<Finding> Ends(string about, string path, Examined examined)
    {
        var (now, times) = (examined.Time.GetUtcNow(), examined.Settings.Display.Times);
        foreach (var certificate in PemCertificates.Load(path))
        {
            using var loaded = certificate;
            var facts = CertificateFacts.Of(loaded);
            var said = CertificateAdvice.Of(facts, now, times);
            foreach (var advice in said)
            {
                yield return new(about, advice.IsFault ? Outcome.Fault : Outcome.Advice, $"{path}, {facts.Subject}: {advice.Text}");
            }

            if (said.Count == 0)
            {
                yield return Finding.Good(about, $"{path}, {facts.Subject}, is valid until {times.Second(facts.Until)}");
            }
        }
    }
}

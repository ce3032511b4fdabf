using Stockseat.Audit.Showing;

namespace Stockseat.Service.Certificates.Issuing;

/// <summary>What is wrong with a certificate, or soon will be.</summary>
/// <param name="IsFault">Whether it is of no use as it is now.</param>
/// <param name="Text">What it is, and what to do.</param>
public sealed record CertificateAdvice(bool IsFault, string Text)
{
    private const string Renew = "issue the next one with stockseat certificate issue --key FILE, which keeps its key and its pin";

    /// <summary>What there is to say about a certificate.</summary>
    /// <param name="facts">What it says.</param>
    /// <param name="now">The present instant.</param>
    /// <param name="times">How instants are shown.</param>
    public static IReadOnlyList<CertificateAdvice> Of(CertificateFacts facts, DateTimeOffset now, ZonedTimes times)
    {
        var isAuthority = facts.Uses.Contains(CertificateFacts.Authority);
        List<CertificateAdvice> all = [.. Time(facts, isAuthority, now, times)];
        if (facts.IsSelfIssued && !isAuthority)
        {
            all.Add(new(
                false,
                "it is signed by itself and is not an authority's, so nobody can check who made it; issue one with an authority: stockseat certificate issue"));
        }

        if (facts.Names.Count == 0 && !isAuthority)
        {
            all.Add(new(
                false,
                "it has no alternative names, and its subject does not count: as a service's certificate clients refuse it, as a client's it can be configured "
                    + "by its pin only; issue one with names: stockseat certificate issue"));
        }

        if (facts.Uses.Count == 0)
        {
            all.Add(new(false, "its key usages allow neither a service nor a client nor an authority; issue another one for what it has to do"));
        }

        if (!KeyKind.IsUsable(facts.Key))
        {
            all.Add(new(false, $"its key is {facts.Key}, which this program can't use for itself; EC and RSA can be used: issue one with such a key"));
        }

        return all;
    }

    private static IEnumerable<CertificateAdvice> Time(CertificateFacts facts, bool isAuthority, DateTimeOffset now, ZonedTimes times)
    {
        var next = isAuthority ? "make the next authority, and issue certificates with it before this one ends" : Renew;
        if (now < facts.From)
        {
            yield return new(true, $"it does not hold before {times.Second(facts.From)}; wait until then, or correct the clock of this computer");
        }

        if (now > facts.Until)
        {
            yield return new(true, $"it ended at {times.Second(facts.Until)}; {next}");
        }
        else if (facts.Until - now <= TimeSpan.FromDays(CertificateEnd.DaysToRenew))
        {
            var left = facts.DaysLeft(now);
            yield return new(
                false,
                $"it ends in {(left == 0 ? "less than a day" : CertificateEnd.Days(left))}, and {CertificateEnd.DaysToRenew} days before its end is the time "
                    + $"to renew it; {next}");
        }
    }
}

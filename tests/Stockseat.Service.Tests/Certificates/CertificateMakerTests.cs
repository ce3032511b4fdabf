using System.Security.Cryptography.X509Certificates;
using Stockseat.Audit.Showing;
using Stockseat.Service.Certificates;
using Stockseat.Service.Certificates.Issuing;

namespace Stockseat.Service.Tests.Certificates;

/// <summary>Certificates hold from and until when they should, and what is wrong with one is said.</summary>
public sealed class CertificateMakerTests : IDisposable
{
    private static readonly DateTimeOffset Now = new(2026, 11, 30, 12, 0, 0, 500, TimeSpan.Zero);
    private static readonly CertificateRequested Client = new("lathe-4", CertificateUse.Client, [], null, 730);

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("stockseat-certificates-");

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public void A_certificate_holds_from_an_hour_before_and_never_outside_its_authority()
    {
        using var authority = Authority(years: 1);
        using var key = PrivateKey.Make();
        using var first = CertificateMaker.Issue(Client with { Days = 100 }, key.Public, authority, Now);
        using var later = CertificateMaker.Issue(Client with { Days = 100 }, key.Public, authority, Now.AddDays(2));
        using var beyond = CertificateMaker.Issue(Client, key.Public, authority, Now);
        using var backwards = CertificateMaker.Issue(Client, key.Public, authority, Now.AddMinutes(-30));

        Assert.Equal((At("2026-11-30T11:00:00Z"), At("2027-03-10T12:00:00Z"), false), Held(first));
        Assert.Equal((At("2026-12-02T11:00:00Z"), At("2027-03-12T12:00:00Z"), false), Held(later));
        Assert.Equal((At("2026-11-30T11:00:00Z"), At("2027-11-30T12:00:00Z"), true), Held(beyond));
        Assert.Equal(At("2026-11-30T11:00:00Z"), Held(backwards).From);
    }

    [Fact]
    public void A_renewal_has_the_same_pin_and_another_serial_number_and_both_hold()
    {
        using var authority = Authority(years: 10);
        using var key = PrivateKey.Make();
        using var old = CertificateMaker.Issue(Client, key.Public, authority, Now);
        using var next = CertificateMaker.Issue(Client, key.Public, authority, Now.AddDays(700));

        Assert.Equal(CertificatePin.Of(old.Certificate), CertificatePin.Of(next.Certificate));
        Assert.NotEqual(old.Certificate.SerialNumber, next.Certificate.SerialNumber);
        Assert.True(Builds(old.Certificate, authority, Now.AddDays(710)));
        Assert.True(Builds(next.Certificate, authority, Now.AddDays(710)));
        Assert.False(Builds(old.Certificate, authority, Now.AddDays(731)));
    }

    [Fact]
    public void An_authority_signs_no_further_authority_and_a_client_signs_nothing()
    {
        using var authority = Authority(years: 10);
        using var key = PrivateKey.Make();
        using var issued = CertificateMaker.Issue(Client, key.Public, authority, Now);
        var own = authority.Certificate.Extensions.OfType<X509BasicConstraintsExtension>().Single();
        var leaf = issued.Certificate.Extensions.OfType<X509BasicConstraintsExtension>().Single();

        Assert.Equal((true, true, 0, true), (own.CertificateAuthority, own.HasPathLengthConstraint, own.PathLengthConstraint, own.Critical));
        Assert.Equal((false, true), (leaf.CertificateAuthority, leaf.Critical));
        Assert.Equal(["authority"], CertificateFacts.Of(authority.Certificate).Uses);
        Assert.Equal(["client"], CertificateFacts.Of(issued.Certificate).Uses);
    }

    [Theory]
    [InlineData(0, null)]
    [InlineData(699.9, null)]
    [InlineData(700.5, "it ends in 29 days, and 30 days before its end is the time to renew it")]
    [InlineData(729.5, "it ends in less than a day")]
    [InlineData(731, "it ended at 2028-11-29 12:00:00 UTC")]
    [InlineData(-1, "it does not hold before 2026-11-30 11:00:00 UTC; wait until then, or correct the clock")]
    public void Advice_begins_30_days_before_the_end(double day, string? said)
    {
        using var authority = Authority(years: 10);
        using var key = PrivateKey.Make();
        using var issued = CertificateMaker.Issue(Client, key.Public, authority, Now);

        var advice = CertificateAdvice.Of(CertificateFacts.Of(issued.Certificate), Now.AddDays(day), Display.Plain.Times);

        if (said is null)
        {
            Assert.Empty(advice);
        }
        else
        {
            Assert.StartsWith(said, Assert.Single(advice).Text, StringComparison.Ordinal);
            Assert.Equal(day is 731 or -1, advice[0].IsFault);
        }
    }

    [Theory]
    [InlineData(-1, "holds from 2026-11-30 11:00:00Z, and it is 2026-11-29 12:00:00Z; correct the clock")]
    [InlineData(366, "ended at 2027-11-30 12:00:00Z, and it is 2027-12-01 12:00:00Z; make a new authority")]
    public void An_authority_that_does_not_hold_now_signs_nothing(int day, string said)
    {
        Authority(years: 1).Dispose();

        var refused = Assert.Throws<InvalidDataException>(() => SigningAuthority.Load(_folder.FullName, Now.AddDays(day)));

        Assert.Contains(said, refused.Message, StringComparison.Ordinal);
    }

    private static (DateTimeOffset From, DateTimeOffset Until, bool IsCut) Held(CertificateIssued issued) =>
        (issued.Certificate.NotBefore.ToUniversalTime(), issued.Certificate.NotAfter.ToUniversalTime(), issued.IsCut);

    private static DateTimeOffset At(string instant) => DateTimeOffset.Parse(instant, System.Globalization.CultureInfo.InvariantCulture);

    /// <summary>Whether the platform finds a certificate good under an authority at an instant.</summary>
    private static bool Builds(X509Certificate2 certificate, SigningAuthority authority, DateTimeOffset at)
    {
        using var chain = new X509Chain();
        chain.ChainPolicy.TrustMode = X509ChainTrustMode.CustomRootTrust;
        chain.ChainPolicy.CustomTrustStore.Add(authority.Certificate);
        chain.ChainPolicy.RevocationMode = X509RevocationMode.NoCheck;
        chain.ChainPolicy.VerificationTime = at.UtcDateTime;
        return chain.Build(certificate);
    }

    private SigningAuthority Authority(int years)
    {
        using var key = PrivateKey.Make();
        using var certificate = CertificateMaker.Authority("Line 2", key, years, Now);
        string In(string name) => Path.Combine(_folder.FullName, name);
        CertificateFiles.Write(In(SigningAuthority.PemName), certificate.ExportCertificatePem(), (In(SigningAuthority.KeyName), key.Pem));
        return SigningAuthority.Load(_folder.FullName, Now);
    }
}

using System.Net;
using System.Net.Security;
using Stockseat.Service.Certificates;
using Stockseat.Service.Clients;
using Stockseat.Service.Handshakes;
using Stockseat.Service.Tests.Support;

namespace Stockseat.Service.Tests.Handshakes;

/// <summary>Who is known by a certificate and who is turned away, for every kind of certificate, from addresses inside and outside.</summary>
public sealed class ProofCheckTests : IDisposable
{
    private const SslPolicyErrors Vouched = SslPolicyErrors.None;
    private const SslPolicyErrors Unvouched = SslPolicyErrors.RemoteCertificateChainErrors;

    private static readonly IPAddress Inside = IPAddress.Parse("10.20.0.7");
    private static readonly IPAddress Outside = IPAddress.Parse("10.21.0.7");

    private readonly TestShop _shop = new();

    public void Dispose() => _shop.Dispose();

    public static TheoryData<string, SslPolicyErrors, string, string?, string?> Matrix => new()
    {
        // certificate, what TLS found, address; client, cause
        { "by name", Vouched, "10.20.0.7", "lathe-4", null },
        { "by name", Vouched, "::ffff:10.20.0.7", "lathe-4", null },
        { "by name", Vouched, "10.21.0.7", null, "certificate-unlisted" }, // With From both have to hold.
        { "by name", Unvouched, "10.20.0.7", null, "certificate-authority" }, // The same name from another authority.
        { "by pin", Vouched, "10.21.0.7", "bench", null },
        { "by pin", Unvouched, "10.21.0.7", "bench", null }, // Self-signed: the pin is enough.
        { "by pin", Unvouched, "10.20.0.7", "bench", null }, // An entry for a certificate comes before one for an address.
        { "unlisted", Vouched, "10.21.0.7", null, "certificate-unlisted" },
        { "unlisted", Vouched, "10.20.0.8", "by-address", null }, // It is good, and its address is enough.
        { "unlisted", Unvouched, "10.20.0.8", null, "certificate-authority" }, // What it shows proves nothing: that is no client's mistake to pass over.
        { "ended", Vouched, "10.20.0.7", null, "certificate-ended" },
        { "not yet", Vouched, "10.20.0.7", null, "certificate-not-yet" },
        { "server's", Vouched, "10.20.0.7", null, "certificate-use" },
        { "none", Vouched, "10.20.0.8", "by-address", null },
        { "none", Vouched, "::ffff:10.20.0.8", "by-address", null },
        { "none", Vouched, "10.21.0.7", null, "no-client" },
    };

    [Theory]
    [MemberData(nameof(Matrix))]
    public void What_a_caller_shows_and_where_it_comes_from_decide_together(
        string which, SslPolicyErrors errors, string address, string? client, string? cause)
    {
        using var certificate = which switch
        {
            "by name" => _shop.Issue("lathe-4", TestShop.Client),
            "by pin" => _shop.Issue("bench", TestShop.Client),
            "unlisted" => _shop.Issue("stranger", TestShop.Client),
            "ended" => _shop.Issue("lathe-4", TestShop.Client, from: -10, days: -0.01),
            "not yet" => _shop.Issue("lathe-4", TestShop.Client, from: 0.01),
            "server's" => _shop.Issue("lathe-4", TestShop.Server),
            _ => null,
        };
        var from = IPAddress.Parse(address);
        var table = Table(which == "by pin" ? _shop.Pin("bench") : "sha256:0");

        var (proof, why) = ProofCheck.Of(certificate, errors, from, table, TimeProvider.System.GetUtcNow());

        Assert.Equal(cause, why?.Name());
        Assert.Equal(client, why is null ? table.Find(from, proof)?.Name : null);
        if (why is { } turnedAway && certificate is not null)
        {
            Assert.Contains(_shop.Pin(certificate.Subject[3..]), ProofCheck.Said(turnedAway, certificate), StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Before_TLS_only_the_address_counts()
    {
        var named = new ClientTable([Bench.Client with { From = [IPNetwork.Parse("10.20.0.0/16")], Certificate = "dns:lathe-4" }]);

        Assert.True(named.MayCome(Inside));
        Assert.True(named.MayCome(IPAddress.Parse("::ffff:10.20.0.7")));
        Assert.False(named.MayCome(Outside));
        Assert.Null(named.Find(Inside, null));
    }

    private static ClientTable Table(string pin) => new(
    [
        Bench.Client with { Name = "lathe-4", Certificate = "dns:lathe-4", From = [IPNetwork.Parse("10.20.0.0/16")] },
        Bench.Client with { Name = "bench", Certificate = pin, From = [IPNetwork.Parse("0.0.0.0/0"), IPNetwork.Parse("::/0")] },
        Bench.Client with { Name = "by-address", From = [IPNetwork.Parse("10.20.0.8/32")] },
    ]);
}

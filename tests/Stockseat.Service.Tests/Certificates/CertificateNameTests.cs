using Stockseat.Service.Certificates.Issuing;

namespace Stockseat.Service.Tests.Certificates;

/// <summary>Which names a certificate, a client and a host can have.</summary>
public sealed class CertificateNameTests
{
    [Theory]
    [InlineData("lathe-4")]
    [InlineData("cell-2.example")]
    [InlineData("4")]
    [InlineData("")]
    [InlineData("-lathe")]
    [InlineData("lathe-")]
    [InlineData("lathe_4")]
    [InlineData("a..b")]
    [InlineData("lathe.")]
    [InlineData("192.0.2.7")]
    [InlineData("../lathe")]
    [InlineData("a234567890b234567890c234567890d234567890e")]
    public void A_name_is_a_dns_name_of_at_most_40_characters(string name) =>
        Assert.Equal(name is "lathe-4" or "cell-2.example", CertificateName.IsName(name));

    [Theory]
    [InlineData("cell-server", null)]
    [InlineData("cell-server.example", null)]
    [InlineData("192.0.2.7", "192.0.2.7")]
    [InlineData("2001:db8::7", "2001:db8::7")]
    public void A_host_is_a_name_or_an_address(string text, string? address) => Assert.Equal(address, HostName.Read(text, out _)!.Address?.ToString());

    [Theory]
    [InlineData("", "neither a host's name nor an address")]
    [InlineData("https://cell-server", "neither a host's name nor an address")]
    [InlineData("cell server", "neither a host's name nor an address")]
    [InlineData("192.0.2.0/24", "neither a host's name nor an address")]
    [InlineData("cell-server:28610", "is not an address")]
    [InlineData("192.0.2.7:28610", "without a port")]
    [InlineData("192.0.2.256", "is not an address")]
    [InlineData("192.0.2.010", "octal")]
    [InlineData("fe80::1%eth0", "has a zone")]
    [InlineData("[2001:db8::7]", "is not an address")]
    public void What_is_neither_is_refused(string text, string said)
    {
        Assert.Null(HostName.Read(text, out var fault));
        Assert.Contains(said, fault, StringComparison.Ordinal);
    }
}

using Microsoft.AspNetCore.Http;
using Stockseat.Answers.Reasons;
using Stockseat.Service.Certificates;
using Stockseat.Service.Clients;

namespace Stockseat.Service.Tests.Clients;

/// <summary>By which names gRPC may be called: not by one that a page in a browser can choose (DNS rebinding), and never by a page at all.</summary>
public sealed class HostNamesTests
{
    [Theory]
    [InlineData("127.0.0.1:28610", true)]
    [InlineData("[::1]:28610", true)]
    [InlineData("10.20.0.7:28610", true)]
    [InlineData("localhost:28610", true)]
    [InlineData("LOCALHOST.", true)]
    [InlineData("stockseat.example:28610", true)]
    [InlineData("service:28610", true)] // Its certificate names it.
    [InlineData("evil.example:28610", false)]
    [InlineData("127.0.0.1.evil.example", false)]
    [InlineData("localhost.evil.example", false)]
    [InlineData("", false)]
    public void A_host_is_known_by_its_address_or_by_a_name_that_the_service_goes_by(string host, bool known)
    {
        using var shop = new TestShop();
        shop.Issue("service", TestShop.Server);
        var names = new HostNames(["stockseat.example"], new ServiceTls(new(shop.Pem("service"), shop.Key("service"), null), TimeProvider.System));
        var context = new DefaultHttpContext();
        context.Request.Host = new(host);

        var refusal = names.Refused(context.Request);

        Assert.Equal(known ? null : Reason.NotPermitted, refusal?.Reason);
    }

    [Theory]
    [InlineData("Origin", "http://127.0.0.1:28610")]
    [InlineData("Origin", "null")]
    [InlineData("Sec-Fetch-Site", "same-origin")]
    [InlineData("Sec-Fetch-Mode", "cors")]
    public void What_only_a_browser_sends_is_refused_whatever_the_host(string header, string value)
    {
        var context = new DefaultHttpContext();
        context.Request.Host = new("127.0.0.1", 28610);
        context.Request.Headers[header] = value;

        Assert.StartsWith("the request came from a page in a browser", new HostNames([], null).Refused(context.Request)!.Text, StringComparison.Ordinal);
    }
}

using System.Net;
using Stockseat.Service.Certificates;
using Stockseat.Service.Pages;
using Stockseat.Service.Tests.Support;

namespace Stockseat.Service.Tests.Pages;

/// <summary>Who may open pages from where.</summary>
public sealed class PageAccessTests
{
    private static readonly CallerProof Proof = new("sha256:aa", []);

    [Theory]
    [InlineData("127.0.0.1", false, false, false, true)]
    [InlineData("::1", false, false, false, true)]
    [InlineData("10.0.0.7", false, false, false, false)]
    [InlineData("10.0.0.7", false, false, true, true)]
    [InlineData("10.0.0.7", true, true, false, true)]
    [InlineData("10.0.0.7", false, true, false, false)] // It showed one, but its entry asks for none: it is known by its address.
    public void Elsewhere_an_address_alone_is_enough_only_where_the_entry_says_so(string from, bool stated, bool shown, bool byAddress, bool may)
    {
        var client = Bench.Client with { Certificate = stated ? Proof.Pin : null, PagesByAddress = byAddress };

        Assert.Equal(may, PageAccess.Refused(client, shown ? Proof : null, IPAddress.Parse(from)) is null);
    }
}

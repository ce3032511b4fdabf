using Microsoft.AspNetCore.Http;
using Stockseat.Service.Pages;

namespace Stockseat.Service.Tests.Pages;

/// <summary>Which requests of a browser are answered.</summary>
public sealed class PageSecurityTests
{
    private const string Own = "http://127.0.0.1:28612";

    [Theory]
    [InlineData(Own, null, null, true)]
    [InlineData(Own, null, "same-origin", true)]
    [InlineData(null, Own + "/hold/pinbed-1", null, true)]
    [InlineData("HTTP://127.0.0.1:28612", null, null, true)]
    [InlineData(null, null, null, false)]
    [InlineData("null", null, null, false)]
    [InlineData("null", Own + "/", "same-origin", false)]
    [InlineData("http://evil.example", null, null, false)]
    [InlineData("http://evil.example", Own + "/", null, false)]
    [InlineData("http://127.0.0.1:28613", null, "same-site", false)]
    [InlineData("https://127.0.0.1:28612", null, null, false)]
    [InlineData("http://127.0.0.1:286120", null, null, false)]
    [InlineData(Own, null, "cross-site", false)]
    [InlineData(Own, null, "same-site", false)]
    [InlineData(Own, null, "none", false)]
    [InlineData(null, Own, null, false)] // A referrer ends its origin with a slash.
    [InlineData(null, Own + ".evil.example/", null, false)]
    public void A_form_is_taken_only_from_a_page_of_this_service(string? origin, string? referrer, string? site, bool taken) =>
        Assert.Equal(taken, PageSecurity.Foreign(Request("POST", ("Origin", origin), ("Referer", referrer), ("Sec-Fetch-Site", site))) is null);

    [Fact]
    public void A_form_with_two_origins_is_not_taken()
    {
        var request = Request("POST");
        request.Headers.Origin = new([Own, "http://evil.example"]);

        Assert.NotNull(PageSecurity.Foreign(request));
    }

    [Theory]
    [InlineData(null, null, null, true)] // No browser.
    [InlineData("none", "navigate", "document", true)] // Typed, or a bookmark.
    [InlineData("same-origin", "cors", "empty", true)]
    [InlineData("same-origin", "no-cors", "style", true)]
    [InlineData("cross-site", "navigate", "document", true)] // A link on another page.
    [InlineData("cross-site", "navigate", "iframe", false)]
    [InlineData("cross-site", "no-cors", "image", false)]
    [InlineData("same-site", "no-cors", "script", false)] // A page on another port of this machine.
    [InlineData("cross-site", "cors", "empty", false)]
    public void A_page_is_shown_to_whoever_opens_it_and_not_to_other_pages(string? site, string? mode, string? dest, bool shown) =>
        Assert.Equal(shown, PageSecurity.Foreign(Request("GET", ("Sec-Fetch-Site", site), ("Sec-Fetch-Mode", mode), ("Sec-Fetch-Dest", dest))) is null);

    private static HttpRequest Request(string method, params (string Name, string? Value)[] headers)
    {
        var request = new DefaultHttpContext().Request;
        (request.Method, request.Scheme, request.Host) = (method, "http", new("127.0.0.1", 28612));
        foreach (var (name, value) in headers.Where(h => h.Value is not null))
        {
            request.Headers[name] = value;
        }

        return request;
    }
}

using System.Net;
using System.Text.Json.Nodes;
using Stockseat.Service.Pages;
using Stockseat.Service.Tests.Support;

namespace Stockseat.Service.Tests.Pages;

/// <summary>What holds for every request at the listener of the pages.</summary>
public sealed class PageDoorTests
{
    [Theory]
    [InlineData("/", HttpStatusCode.OK)]
    [InlineData("/files/style.css", HttpStatusCode.OK)]
    [InlineData("/files/board.js", HttpStatusCode.OK)]
    [InlineData("/files/none.css", HttpStatusCode.NotFound)]
    [InlineData("/no-such-page", HttpStatusCode.NotFound)]
    [InlineData("/stockseat.v1.FixtureService/ListFixtures", HttpStatusCode.NotFound)]
    [InlineData("//evil.example/", HttpStatusCode.NotFound)]
    public async Task Every_reply_forbids_what_a_page_must_not_do(string path, HttpStatusCode status)
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);

        using var reply = await page.Get($"{page.Origin}{path}");

        Assert.Equal(status, reply.StatusCode);
        Assert.All(PageSecurity.Headers, h => Assert.Equal(h.Value, Assert.Single(reply.Headers.GetValues(h.Name))));
        Assert.DoesNotContain("unsafe", Assert.Single(reply.Headers.GetValues("Content-Security-Policy")), StringComparison.Ordinal);
        Assert.False(reply.Headers.Contains("Set-Cookie"));
    }

    [Fact]
    public async Task A_stranger_is_refused_before_the_request_is_read()
    {
        await using var bench = await Bench.Start(configure: s => s["Clients"]![0]!["From"] = new JsonArray("127.0.0.1"));
        using var stranger = new PageClient(bench.Service.Page!, "127.0.0.8");

        using var reply = await stranger.Get("/");

        Assert.Equal(HttpStatusCode.Forbidden, reply.StatusCode);
        Assert.StartsWith("no client of the configuration comes from this address", await reply.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.All(PageSecurity.Headers, h => Assert.Equal(h.Value, Assert.Single(reply.Headers.GetValues(h.Name))));
    }

    [Fact]
    public async Task Requests_count_towards_the_rate_of_their_client()
    {
        await using var bench = await Bench.Start(configure: s => s["Clients"]![0]!["Rate"] = 2);
        using var page = new PageClient(bench.Service.Page!);

        var replies = await Task.WhenAll(Enumerable.Range(0, 12).Select(_ => page.Get("/files/style.css")));

        Assert.Contains(HttpStatusCode.TooManyRequests, replies.Select(r => r.StatusCode));
    }

    [Fact]
    public async Task Without_a_listener_there_are_no_pages()
    {
        await using var bench = await Bench.Start(configure: s => s["Listen"]!["Page"] = "none");

        Assert.Null(bench.Service.Page);
        using var line = await bench.Line();
        Assert.StartsWith("ok", await line.Ask("status"), StringComparison.Ordinal);
    }
}

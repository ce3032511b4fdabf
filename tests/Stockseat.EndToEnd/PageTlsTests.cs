using System.Net;
using System.Security.Cryptography.X509Certificates;
using System.Text.Json.Nodes;
using Stockseat.EndToEnd.Support;
using Stockseat.Tests.Support;

namespace Stockseat.EndToEnd;

/// <summary>Pages over TLS: whom the service knows by a certificate, whom by the address, and how strangers are told.</summary>
public abstract class PageTlsTests(Build build) : OnBothBuilds(build)
{
    public sealed class Ordinary() : PageTlsTests(Build.Ordinary);

    public sealed class Native() : PageTlsTests(Build.Native);

    [Theory]
    [InlineData("1.1")]
    [InlineData("2.0")]
    public async Task A_page_knows_its_client_by_the_certificate(string version)
    {
        using var tls = new TlsCell(byAddress: true);
        await using var service = await Program.Serve(tls.Cell);

        Assert.Contains("Client: bench<", await Text(tls, service, "bench", version), StringComparison.Ordinal);
        Assert.Contains("Client: lathe-4<", await Text(tls, service, "lathe-4", version), StringComparison.Ordinal);
        Assert.Contains("Client: here<", await Text(tls, service, null, version), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("1.1")]
    [InlineData("2.0")]
    public async Task Whoever_is_no_client_is_told_why(string version)
    {
        using var tls = new TlsCell();
        tls.Shop.Issue("stranger", TestShop.Client);
        await using var service = await Program.Serve(tls.Cell);

        using var none = await Get(tls, service, null, version);
        using var other = await Get(tls, service, "stranger", version);

        Assert.Equal((HttpStatusCode.Forbidden, HttpStatusCode.Forbidden), (none.StatusCode, other.StatusCode));
        Assert.StartsWith("the caller showed no certificate", await none.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.StartsWith("the caller's certificate (CN=stranger", await other.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.Equal("no-store", Assert.Single(none.Headers.GetValues("Cache-Control")));
    }

    [Fact]
    public async Task The_board_warns_of_the_end_of_the_certificate()
    {
        using var tls = new TlsCell();
        tls.Shop.Issue("service", TestShop.Server, days: 5.5);
        await using var service = await Program.Serve(tls.Cell);

        Assert.Contains("ends in 5 days; issue a new one", await Text(tls, service, "bench", "1.1"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Without_TLS_a_listener_on_all_addresses_needs_an_entry_that_trusts_an_address()
    {
        using var cell = new Cell();
        var settings = JsonNode.Parse(File.ReadAllText(cell.Config), null, new() { CommentHandling = System.Text.Json.JsonCommentHandling.Skip })!;
        settings["Listen"]!["Page"] = "0.0.0.0:0";
        cell.Write(cell.Config, settings.ToJsonString());

        (await Program.Run("settings", "--config", cell.Config)).Fails(64, "Listen:Page: is \"0.0.0.0:0\", but there is no certificate");

        settings["Clients"]![1]!["Pages"] = "by-address";
        cell.Write(cell.Config, settings.ToJsonString());
        var run = (await Program.Run("settings", "--config", cell.Config)).Exits(0);
        Assert.Contains("shows pages to other machines by their addresses alone (clients bench)", run.Out + run.Err, StringComparison.Ordinal);
    }

    private static async Task<string> Text(TlsCell tls, Service service, string? who, string version)
    {
        using var reply = await Get(tls, service, who, version);
        Assert.Equal((HttpStatusCode.OK, Version.Parse(version)), (reply.StatusCode, reply.Version));
        return await reply.Content.ReadAsStringAsync();
    }

    private static async Task<HttpResponseMessage> Get(TlsCell tls, Service service, string? who, string version)
    {
        using var certificate = who is null ? null : X509CertificateLoader.LoadPkcs12(tls.Shop.Load(who).Export(X509ContentType.Pkcs12), null);
        var handler = new SocketsHttpHandler { UseProxy = false };
        handler.SslOptions.RemoteCertificateValidationCallback = (_, _, _, _) => true; // What matters here is whom the service trusts.
        if (certificate is not null)
        {
            handler.SslOptions.ClientCertificates = [certificate];
        }

        using var http = new HttpClient(handler);
        using var request = new HttpRequestMessage(HttpMethod.Get, $"https://{service.Page}/")
        {
            Version = Version.Parse(version), VersionPolicy = HttpVersionPolicy.RequestVersionExact,
        };
        return await http.SendAsync(request).Within("a page over TLS");
    }
}

using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Text;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Stockseat.Service.Tests.Hosting;
using Stockseat.Service.Tests.Support;

namespace Stockseat.Service.Tests.Metrics;

/// <summary>Who may read the metrics, and where they are pushed.</summary>
public sealed class ScrapeTests
{
    [Fact]
    public async Task The_metrics_are_for_those_who_may_read_the_ledger()
    {
        await using var bench = await Bench.Start(configure: c => c["Clients"]![0]!["Roles"] = new JsonArray("locate", "measure", "calibrate"));
        using var page = new PageClient(bench.Service.Page!);

        using var reply = await page.Get("/metrics");

        Assert.Equal(HttpStatusCode.Forbidden, reply.StatusCode);
        Assert.DoesNotContain("stockseat_", await reply.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/metrics/more", HttpStatusCode.NotFound)]
    [InlineData("/metricsmore", HttpStatusCode.NotFound)]
    public async Task There_is_one_page_of_metrics(string path, HttpStatusCode status)
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);

        using var reply = await page.Get(path);

        Assert.Equal(status, reply.StatusCode);
    }

    [Fact]
    public async Task Reading_them_writes_nothing_and_is_plain_text()
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);
        var before = await Serial(page);

        using var reply = await page.Get("/metrics", ("Accept", "text/plain"));

        Assert.Equal("text/plain", reply.Content.Headers.ContentType!.MediaType);
        Assert.Equal(before, await Serial(page));
    }

    [Fact]
    public async Task The_age_of_the_newest_seal_is_there_when_there_is_one()
    {
        await using (var unsealed = await Bench.Start())
        {
            using var page = new PageClient(unsealed.Service.Page!);
            Assert.DoesNotContain("stockseat_ledger_seal_age_seconds", await page.Page("/metrics"), StringComparison.Ordinal);
        }

        await using var bench = await SealedServiceTests.Start();
        await bench.Restart(); // A stop ends with a seal.
        using var client = new PageClient(bench.Service.Page!);

        Assert.InRange(Value(await client.Page("/metrics"), "stockseat_ledger_seal_age_seconds"), 0, 3600);
    }

    [Fact]
    public async Task A_collector_gets_them_where_one_is_stated()
    {
        using var collector = new TcpListener(IPAddress.Loopback, 0);
        collector.Start();
        await using var bench = await Bench.Start(configure: c =>
        {
            c["Listen"]!["Page"] = "none";
            c["Metrics"] = new JsonObject { ["Push"] = $"http://{collector.LocalEndpoint}/v1/metrics", ["Every"] = "00:00:01" };
        });

        var (head, body) = await Pushed(collector);

        Assert.StartsWith("POST /v1/metrics HTTP/1.1", head, StringComparison.Ordinal);
        Assert.Contains("application/x-protobuf", head, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("stockseat.ledger.writable", body, StringComparison.Ordinal);
        Assert.Contains("service.name", body, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_collector_that_takes_nothing_keeps_no_answer_waiting()
    {
        using var collector = new TcpListener(IPAddress.Loopback, 0);
        collector.Start();
        await using var bench = await Bench.Start(
            configure: c => c["Metrics"] = new JsonObject { ["Push"] = $"http://{collector.LocalEndpoint}/v1/metrics", ["Every"] = "00:00:01" });
        using var deaf = await collector.AcceptTcpClientAsync().Within("a push");
        using var line = await bench.Line();

        Assert.StartsWith("ok ", await line.Ask("locate fixture=pinbed-1 diameter=92.40mm tag=1"), StringComparison.Ordinal);
        Assert.Equal(0, await bench.Stop());
    }

    /// <summary>The first request of a push, with one byte a character.</summary>
    private static async Task<(string Head, string Body)> Pushed(TcpListener collector)
    {
        using var client = await collector.AcceptTcpClientAsync().Within("a push");
        var (text, piece) = (new StringBuilder(), new byte[4096]);
        while (true)
        {
            var read = await client.GetStream().ReadAsync(piece).Within("the pushed bytes");
            text.Append(Encoding.Latin1.GetString(piece, 0, read));
            var (all, end) = (text.ToString(), text.ToString().IndexOf("\r\n\r\n", StringComparison.Ordinal));
            var length = Regex.Match(all, "Content-Length: (\\d+)", RegexOptions.IgnoreCase);
            if (read == 0 || (end > 0 && length.Success && all.Length - end - 4 >= int.Parse(length.Groups[1].Value, CultureInfo.InvariantCulture)))
            {
                await client.GetStream().WriteAsync("HTTP/1.1 200 OK\r\nContent-Length: 0\r\n\r\n"u8.ToArray());
                return (all[..end], all[end..]);
            }
        }
    }

    private static async Task<double> Serial(PageClient page) => Value(await page.Page("/metrics"), "stockseat_ledger_serial");

    private static double Value(string text, string name) =>
        double.Parse(Assert.Single(text.Split('\n'), l => l.StartsWith(name + "{", StringComparison.Ordinal)).Split(' ')[1], CultureInfo.InvariantCulture);
}

using System.Diagnostics;
using System.Globalization;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Stockseat.Service.Tests.Gauges;
using Stockseat.Service.Tests.Hosting;
using Stockseat.Service.Tests.Support;

namespace Stockseat.Service.Tests.Metrics;

/// <summary>What Prometheus reads of a running service: the names that the document freezes, and the right numbers.</summary>
public sealed partial class MetricsTests
{
    private const string Document = "install/metrics.md";

    /// <summary>So long that a label of a client's text would show.</summary>
    private const string Shouted = "NOBODY-MAY-MULTIPLY-THIS";

    [Fact]
    public async Task Names_kinds_and_labels_are_those_of_the_document()
    {
        using var shop = new TestShop();
        shop.Issue("service", TestShop.Server);
        await using var bench = await Bench.Start(
            configure: c =>
            {
                c["ReadingPorts"] = new JsonArray(GaugeClient.Port());
                c["Tls"] = new JsonObject { ["Certificate"] = shop.Pem("service"), ["Key"] = shop.Key("service") };
                c["Plant"] = new JsonObject { ["Connection"] = "Host=127.0.0.1;Port=1;Database=plant;Username=cell" };
                c["Ledger"] = new JsonObject { ["SealKey"] = "seal.pem", ["SealEvery"] = 1 };
            }, prepare: SealedServiceTests.WriteKey);
        using (var line = await bench.Line())
        {
            await line.Ask("measured fixture=pinbed-1 diameter=92.40mm gauge=bench-2");
            await line.Ask("locate fixture=pinbed-1 diameter=92.40mm tag=1");
            await line.Ask("nonsense");
        }

        using var client = new HttpClient(new SocketsHttpHandler
        {
            SslOptions = new() { RemoteCertificateValidationCallback = (_, _, _, _) => true },
        });
        var served = Families(await client.GetStringAsync(new Uri($"https://{bench.Service.Page}/metrics")).Within("the metrics"));
        Assert.Equal(Documented().OrderBy(d => d.Key, StringComparer.Ordinal), served.OrderBy(s => s.Key, StringComparer.Ordinal));
    }

    [Fact]
    public async Task Asks_are_counted_by_verb_and_reason_and_no_text_of_a_client_is_a_label()
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);
        using var line = await bench.Line();
        for (var i = 0; i < 3; i++)
        {
            Assert.Equal("ok", (await line.Ask($"locate fixture=pinbed-1 diameter=92.40mm tag={Shouted}-{i}")).Split(' ')[0]);
        }

        await line.Ask($"locate fixture={Shouted.ToLowerInvariant()} diameter=92.40mm tag=1 lot={Shouted}");

        var text = await page.Page("/metrics");
        Assert.Equal(3, Value(text, "stockseat_asks_total", "verb=\"locate\"", "reason=\"\""));
        Assert.Equal(1, Value(text, "stockseat_asks_total", "verb=\"locate\"", "reason=\"fixture-unknown\""));
        Assert.Equal(4, Value(text, "stockseat_answer_time_seconds_count", "verb=\"locate\""));
        Assert.Equal(1, Value(text, "stockseat_ledger_writable"));
        Assert.Equal(1, Value(text, "stockseat_fixture_answers", "fixture=\"pinbed-1\""));
        Assert.Equal(1, Value(text, "stockseat_fixture_first_pending", "fixture=\"pinbed-1\""));
        Assert.Equal(0, Value(text, "stockseat_fixture_first_pending", "fixture=\"veerack-2\""));
        Assert.DoesNotContain(Shouted, text, StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public async Task The_buckets_begin_at_50_microseconds()
    {
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);
        using var line = await bench.Line();
        await line.Ask("locate fixture=pinbed-1 diameter=92.40mm tag=1");

        var bounds = Bounds().Matches(await page.Page("/metrics")).Select(m => m.Groups[1].Value).ToList();
        Assert.Equal(["5E-05", "0.0001", "0.0002"], bounds.Take(3).Select(b => double.Parse(b, CultureInfo.InvariantCulture)
            .ToString(CultureInfo.InvariantCulture)));
        Assert.Equal("+Inf", bounds[^1]);
    }

    [Fact]
    public async Task Promtool_finds_nothing_to_say()
    {
        var promtool = new[] { "/usr/bin/promtool", "/usr/local/bin/promtool" }.FirstOrDefault(File.Exists);
        Assert.SkipWhen(promtool is null, "promtool is not installed (Debian's prometheus); tests/run installs it where it can");
        await using var bench = await Bench.Start();
        using var page = new PageClient(bench.Service.Page!);
        using (var line = await bench.Line())
        {
            await line.Ask("locate fixture=pinbed-1 diameter=92.40mm tag=1");
        }

        Assert.Equal((0, ""), await Check(promtool!, await page.Page("/metrics")));
        var (code, said) = await Check(promtool!, "# TYPE stockseat_asks counter\nstockseat_asks 1\n");
        Assert.NotEqual(0, code);
        Assert.Contains("stockseat_asks", said, StringComparison.Ordinal);
    }

    private static async Task<(int Code, string Said)> Check(string promtool, string text)
    {
        using var checking = Process.Start(new ProcessStartInfo(promtool, ["check", "metrics"])
        {
            RedirectStandardInput = true, RedirectStandardError = true, RedirectStandardOutput = true,
        })!;
        await checking.StandardInput.WriteAsync(text);
        checking.StandardInput.Close();
        var said = await checking.StandardError.ReadToEndAsync().Within("promtool") + await checking.StandardOutput.ReadToEndAsync().Within("promtool");
        return (await checking.Ends("promtool"), said.Trim());
    }

    /// <summary>Name, kind and labels of each row of the document's table.</summary>
    private static Dictionary<string, string> Documented() => File.ReadLines(Path.Combine(Repository.Root, Document))
        .Select(l => l.Split('|', StringSplitOptions.TrimEntries)).Where(c => c.Length > 4 && c[1].StartsWith("`stockseat_", StringComparison.Ordinal))
        .ToDictionary(c => c[1].Trim('`'), c => $"{c[2]} {string.Join(',', c[3].Split(", ").Select(l => l.Trim('`')).Where(l => l.Length > 0))}");

    /// <summary>Name, kind and labels of what is served.</summary>
    private static Dictionary<string, string> Families(string text)
    {
        var families = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (Match type in Types().Matches(text))
        {
            var (name, kind) = (type.Groups[1].Value, type.Groups[2].Value);
            var sample = Regex.Matches(text, $"^{name}(?:_bucket|_sum|_count)?(?:\\{{(.*)\\}})? ", RegexOptions.Multiline);
            var labels = sample.SelectMany(s => Labels().Matches(s.Groups[1].Value).Select(m => m.Groups[1].Value)).Where(l => l != "le")
                .Distinct().Order(StringComparer.Ordinal);
            families[name] = $"{kind} {string.Join(',', labels)}";
        }

        return families;
    }

    private static double Value(string text, string name, params string[] labels)
    {
        var line = Assert.Single(text.Split('\n'),
            l => (l.StartsWith(name + "{", StringComparison.Ordinal) || l.StartsWith(name + " ", StringComparison.Ordinal))
            && labels.All(x => l.Contains(x, StringComparison.Ordinal)));
        return double.Parse(line[(line.LastIndexOf('}') + 1)..].Split(' ', StringSplitOptions.RemoveEmptyEntries).First(w => w != name),
            CultureInfo.InvariantCulture);
    }

    [GeneratedRegex("^# TYPE (\\S+) (\\S+)", RegexOptions.Multiline)]
    private static partial Regex Types();

    [GeneratedRegex("([a-z_]+)=\"")]
    private static partial Regex Labels();

    [GeneratedRegex("^stockseat_answer_time_seconds_bucket\\{.*le=\"([^\"]+)\"", RegexOptions.Multiline)]
    private static partial Regex Bounds();
}

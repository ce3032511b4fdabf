using System.Diagnostics;
using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;
using Stockseat.EndToEnd.Support;
using Stockseat.Reliability.Support;
using Stockseat.Tests.Support;

namespace Stockseat.Reliability.Install;

/// <summary>A real Prometheus reads a running service, with the rules that ship.</summary>
public sealed partial class PrometheusTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("stockseat-prometheus-");

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public async Task Prometheus_ReadsTheServiceAndLoadsTheRules()
    {
        Needs.Programs("prometheus");
        using var cell = new Cell();
        await using var service = await Built.Ordinary.Serve(cell);
        await service.Ask("locate", "pinbed-1", "--diameter", "92.40mm");
        using var prometheus = Start(service.Page.ToString());
        try
        {
            using var client = new HttpClient { BaseAddress = await Address(prometheus) };
            await Deadline.Until(async () => await IsReady(client), "Prometheus to be ready: until then it refuses queries");
            await Deadline.Until(async () => await Query(client, "stockseat_ledger_writable") == 1, "a scrape of the service");

            Assert.Equal(1, await Query(client, "sum(stockseat_asks_total{verb=\"locate\",reason=\"\"})"));
            Assert.Equal(1, await Query(client, "histogram_quantile(1, stockseat_answer_time_seconds_bucket{verb=\"locate\"}) > bool 0"));
            Assert.Equal(1, await Query(client, "up{job=\"stockseat\"}"));
            Assert.Contains("StockseatCannotWrite", await client.GetStringAsync(new Uri("/api/v1/rules", UriKind.Relative)), StringComparison.Ordinal);

            await service.Kill();
            await Deadline.Until(async () => await Query(client, "up{job=\"stockseat\"}") == 0, "a scrape of the service that is gone");
        }
        finally
        {
            prometheus.Kill(entireProcessTree: true);
            await prometheus.Ends("Prometheus");
        }
    }

    private Process Start(string page)
    {
        var rules = Path.Combine(Repository.Root, "install", "prometheus", "stockseat.rules.yml");
        var settings = Path.Combine(_folder.FullName, "prometheus.yml");
        File.WriteAllText(settings, $$"""
            global: { scrape_interval: 1s, evaluation_interval: 1s }
            scrape_configs: [ { job_name: stockseat, static_configs: [ { targets: [ "{{page}}" ] } ] } ]
            rule_files: [ "{{rules}}" ]
            """);
        return Tool.Start("prometheus",
            [$"--config.file={settings}", $"--storage.tsdb.path={Path.Combine(_folder.FullName, "data")}", "--web.listen-address=127.0.0.1:0"]);
    }

    private static async Task<Uri> Address(Process prometheus)
    {
        _ = prometheus.StandardOutput.ReadToEndAsync();
        while (await prometheus.StandardError.ReadLineAsync().Within("Prometheus's address") is { } line)
        {
            if (Listening().Match(line) is { Success: true } match)
            {
                _ = prometheus.StandardError.ReadToEndAsync();
                return new($"http://{match.Groups[1].Value}");
            }
        }

        throw new InvalidOperationException("Prometheus ended before it listened");
    }

    private static async Task<bool> IsReady(HttpClient client)
    {
        using var reply = await client.GetAsync(new Uri("/-/ready", UriKind.Relative)).Within("Prometheus's word whether it is ready");
        return reply.IsSuccessStatusCode;
    }

    /// <summary>The value of the one series that an expression gives; null: none yet.</summary>
    private static async Task<double?> Query(HttpClient client, string expression)
    {
        var text = await client.GetStringAsync(new Uri($"/api/v1/query?query={Uri.EscapeDataString(expression)}", UriKind.Relative)).Within("a query");
        var found = JsonDocument.Parse(text).RootElement.GetProperty("data").GetProperty("result").EnumerateArray().ToList();
        return found.Count == 0 ? null : double.Parse(Assert.Single(found).GetProperty("value")[1].GetString()!, CultureInfo.InvariantCulture);
    }

    [GeneratedRegex("msg=\"Listening on\" address=(\\S+)")]
    private static partial Regex Listening();
}

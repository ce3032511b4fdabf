using Microsoft.AspNetCore.Http;
using Stockseat.Service.Metrics;

namespace Stockseat.Service.Pages.Scrape;

/// <summary>The metrics, for Prometheus: /metrics. It is for whoever may read the ledger.</summary>
internal sealed class ScrapePage(ServiceMetrics metrics, IServiceProvider services) : IPage
{
    private readonly RequestDelegate _write = MetricsText.Writer(metrics, services);

    public string Name => "metrics";

    public Task<PageReply> Get(PageRequest request) => Task.FromResult(
        request.Path.Count > 0 ? PageReply.NoPage : PageLedger.Denied(request.Client) ?? PageReply.By(_write));
}

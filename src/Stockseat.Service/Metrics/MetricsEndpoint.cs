using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Routing;
using OpenTelemetry;
using OpenTelemetry.Metrics;

namespace Stockseat.Service.Metrics;

/// <summary>The page on which Prometheus reads the metrics.</summary>
public static class MetricsEndpoint
{
    /// <summary>Its path unless stated.</summary>
    public const string UsualPath = "/metrics";

    /// <summary>Mounts the page. It is for one listener: whoever mounts it guards it.</summary>
    /// <param name="routes">Where.</param>
    /// <param name="metrics">What is measured.</param>
    /// <param name="path">Its path.</param>
    public static IEndpointConventionBuilder MapMetrics(this IEndpointRouteBuilder routes, ServiceMetrics metrics, string path = UsualPath)
    {
        ArgumentNullException.ThrowIfNull(metrics);
        return routes.MapPrometheusScrapingEndpoint(path, metrics.Provider, configureBranchedPipeline: null, optionsName: null);
    }

    /// <summary>Collects the metrics of a meter, with the boundaries of its histograms, and no labels but its own.</summary>
    internal static MeterProvider Collect(string meter)
    {
        var builder = Sdk.CreateMeterProviderBuilder().AddMeter(meter);
        foreach (var histogram in MeasuredThing.All.Where(m => m.Boundaries is not null))
        {
            builder.AddView(histogram.Instrument, new ExplicitBucketHistogramConfiguration { Boundaries = histogram.Boundaries });
        }

        return builder.AddPrometheusExporter(options =>
        {
            options.ScopeInfoEnabled = false;
            options.TargetInfoEnabled = false;
        }).Build()!;
    }
}

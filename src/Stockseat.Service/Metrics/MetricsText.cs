using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using OpenTelemetry;
using OpenTelemetry.Exporter;
using OpenTelemetry.Metrics;
using OpenTelemetry.Resources;

namespace Stockseat.Service.Metrics;

/// <summary>The metrics as Prometheus reads them.</summary>
internal static class MetricsText
{
    /// <summary>A collector that does not answer makes the service's stop wait for so long.</summary>
    private const int PushTimeoutMs = 2000;

    /// <summary>Writes them as the reply to a request. Whoever calls it has checked the request.</summary>
    /// <param name="metrics">What is measured.</param>
    /// <param name="services">The service's own.</param>
    public static RequestDelegate Writer(ServiceMetrics metrics, IServiceProvider services) => new ApplicationBuilder(services)
        .UseOpenTelemetryPrometheusScrapingEndpoint(metrics.Provider, predicate: _ => true, path: null, configureBranchedPipeline: null, optionsName: null)
        .Build();

    /// <summary>Collects the metrics of a meter, with the boundaries of its histograms, and no labels but its own.</summary>
    /// <param name="meter">The meter.</param>
    /// <param name="settings">Where they are pushed as well.</param>
    public static MeterProvider Collect(string meter, MetricsSettings settings)
    {
        var builder = Sdk.CreateMeterProviderBuilder().AddMeter(meter);
        foreach (var histogram in MeasuredThing.All.Where(m => m.Boundaries is not null))
        {
            builder.AddView(histogram.Instrument, new ExplicitBucketHistogramConfiguration { Boundaries = histogram.Boundaries });
        }

        if (settings.Push is { } push)
        {
            builder.ConfigureResource(r => r.AddService(meter)).AddOtlpExporter((exporter, reader) =>
            {
                (exporter.Endpoint, exporter.Protocol) = (push, OtlpExportProtocol.HttpProtobuf);
                exporter.TimeoutMilliseconds = PushTimeoutMs;
                reader.PeriodicExportingMetricReaderOptions = new()
                {
                    ExportIntervalMilliseconds = (int)settings.Every.TotalMilliseconds, ExportTimeoutMilliseconds = PushTimeoutMs,
                };
            });
        }

        return builder.AddPrometheusExporter(options =>
        {
            options.ScopeInfoEnabled = false;
            options.TargetInfoEnabled = false;
        }).Build()!;
    }
}

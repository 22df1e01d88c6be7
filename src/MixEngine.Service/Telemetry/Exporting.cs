using MixEngine.Service.Options;
using OpenTelemetry.Metrics;
using OpenTelemetry.Resources;
using OpenTelemetry.Trace;

namespace MixEngine.Service.Telemetry;

/// <summary>Where traces and metrics go: nowhere, unless the options say so.</summary>
internal static class Exporting
{
    /// <summary>The address of the metrics in Prometheus's text form.</summary>
    public const string MetricsPath = "/metrics";

    // Seconds: a prediction takes a fraction of a millisecond, a scheme minutes.
    private static readonly double[] Durations = [0.0005, 0.001, 0.0025, 0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1, 2.5, 5, 10, 30, 60, 300];

    public static void Add(WebApplicationBuilder builder, TelemetryOptions options)
    {
        if (!options.Metrics && !options.IsSent)
        {
            return;
        }

        // The exporter looks for its standard variables among the application's settings, which are otherwise none.
        builder.Configuration.AddInMemoryCollection(options.Standard.Select(variable => KeyValuePair.Create(variable.Key, (string?)variable.Value)));
        var telemetry = builder.Services.AddOpenTelemetry().ConfigureResource(resource => resource.AddService("mixengine", serviceVersion: Schemes.SchemeRunner.EngineVersion));
        telemetry.WithMetrics(metrics =>
        {
            metrics
                .AddMeter(Measures.Name, "Microsoft.AspNetCore.Server.Kestrel")
                .AddView(instrument => instrument.Meter.Name == Measures.Name && instrument.Unit == "s" ? new ExplicitBucketHistogramConfiguration { Boundaries = Durations } : null)
                .AddRuntimeInstrumentation();
            if (options.Metrics)
            {
                metrics.AddPrometheusExporter(exporter => exporter.ScrapeEndpointPath = MetricsPath);
            }

            if (options.IsSent)
            {
                metrics.AddOtlpExporter(otlp => otlp.Endpoint = options.Otlp ?? otlp.Endpoint);
            }
        });
        if (options.IsSent)
        {
            telemetry.WithTracing(tracing => tracing
                .AddSource(Measures.Name)
                .AddAspNetCoreInstrumentation(requests =>
                {
                    requests.Filter = context => !context.Request.Path.StartsWithSegments("/health");
                    requests.RecordException = false;

                    // Paths and queries name shelves and paints, which are nobody's business.
                    requests.EnrichWithHttpRequest = (span, request) => span.SetTag("url.path", null).SetTag("url.query", null);
                    requests.EnrichWithHttpResponse = (span, response) => span.SetTag("url.path", RpcName.Of(response.HttpContext) ?? "").SetTag("url.query", null);
                })
                .AddOtlpExporter(otlp => otlp.Endpoint = options.Otlp ?? otlp.Endpoint));
        }
    }

    public static void Map(WebApplication app, TelemetryOptions options)
    {
        if (options.Metrics)
        {
            app.MapPrometheusScrapingEndpoint();
        }
    }
}

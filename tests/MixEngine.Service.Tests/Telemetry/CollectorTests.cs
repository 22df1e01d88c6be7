using System.Collections.Concurrent;
using System.Net;
using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.Extensions.DependencyInjection;
using MixEngine.Service.Options;
using MixEngine.V1;

namespace MixEngine.Service.Tests.Telemetry;

/// <summary>Traces and metrics as a collector gets them over OTLP.</summary>
public sealed class CollectorTests
{
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task Calls_arrive_by_their_name_and_without_anything_a_user_entered(bool byStandardVariable)
    {
        var received = new ConcurrentDictionary<string, string>();
        await using var collector = await CollectorAsync(received);
        var address = new Uri(collector.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First());
        var telemetry = byStandardVariable
            ? new TelemetryOptions { Standard = new Dictionary<string, string> { ["OTEL_EXPORTER_OTLP_ENDPOINT"] = address.ToString() } }
            : new TelemetryOptions { Otlp = address };
        await using (var service = new TestService { Options = options => options with { Telemetry = telemetry } })
        {
            await service.InitializeAsync();
            await service.Mixing.PredictAsync(new PredictRequest { Recipe = new RecipeInput { Text = "kelp" } });
            await service.Http.GetStringAsync("/v1/shelves/home/paints/tide%20pool?view.illuminant=A");
            using var json = new StringContent("""{"items":[{"key":"a","words":{"color":{"text":"#5a6b3c"}}}]}""", Encoding.UTF8, "application/json");
            await service.Http.PostAsync("/v1/batch", json);
        }

        // What is left is sent when the service ends.
        var traces = received["/opentelemetry.proto.collector.trace.v1.TraceService/Export"];
        Assert.Contains("mixengine.v1.Mixing/Predict", traces);
        Assert.Contains("mixengine.v1.Shelves/GetPaint", traces);
        Assert.Contains("item Words", traces);
        Assert.Contains("mixengine.calls", received["/opentelemetry.proto.collector.metrics.v1.MetricsService/Export"]);
        Assert.All(received.Values, sent => Assert.All(["kelp", "tide", "5a6b3c", "/home"], word => Assert.DoesNotContain(word, sent)));
    }

    // As much of a collector as a sender needs: it takes every message, and keeps what it holds.
    private static async Task<WebApplication> CollectorAsync(ConcurrentDictionary<string, string> received)
    {
        var builder = WebApplication.CreateEmptyBuilder(new WebApplicationOptions());
        builder.WebHost.UseKestrelCore().ConfigureKestrel(kestrel => kestrel.Listen(IPAddress.Loopback, 0, endpoint => endpoint.Protocols = HttpProtocols.Http2));
        var app = builder.Build();
        app.Run(async context =>
        {
            var body = new MemoryStream();
            await context.Request.Body.CopyToAsync(body);
            received.AddOrUpdate(context.Request.Path, _ => Encoding.Latin1.GetString(body.ToArray()), (_, before) => before + Encoding.Latin1.GetString(body.ToArray()));
            context.Response.ContentType = "application/grpc";
            context.Response.DeclareTrailer("grpc-status");
            await context.Response.Body.WriteAsync(new byte[5]);
            context.Response.AppendTrailer("grpc-status", "0");
        });
        await app.StartAsync();
        return app;
    }
}

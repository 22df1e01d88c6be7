using System.Text.RegularExpressions;
using MixEngine.Service.Options;
using MixEngine.V1;

namespace MixEngine.Service.Tests.Telemetry;

/// <summary>Metrics as Prometheus reads them.</summary>
public sealed class MetricsTests : IAsyncLifetime
{
    private readonly TestService _service = new() { Options = options => options with { Telemetry = new TelemetryOptions { Metrics = true } } };

    public ValueTask InitializeAsync() => _service.InitializeAsync();

    public ValueTask DisposeAsync() => _service.DisposeAsync();

    [Fact]
    public async Task Calls_items_and_searches_are_counted_and_no_name_of_a_user_is_told()
    {
        await _service.Mixing.PredictAsync(new PredictRequest { Recipe = new RecipeInput { Text = "kelp" } });
        await Assert.ThrowsAsync<Grpc.Core.RpcException>(() => _service.Mixing.PredictAsync(new PredictRequest { Recipe = new RecipeInput { Text = "qqqq" } }).ResponseAsync);
        await _service.Mixing.MatchAsync(new MatchRequest { Target = new ColorInput { Text = "#5a6b3c" }, Drops = 2 });
        await _service.Http.GetStringAsync("/v1/shelves/home/paints/kelp");
        using var json = new StringContent("""{"items":[{"key":"a","words":{"color":{"text":"#5a6b3c"}}},{"key":"b"}]}""", System.Text.Encoding.UTF8, "application/json");
        await _service.Http.PostAsync("/v1/batch", json);

        // Exported periodically: what is served may be a moment old.
        var metrics = await _service.Http.GetStringAsync("/metrics");
        for (var i = 0; i < 100 && Value(metrics, "mixengine_calls_total", "method=\"mixengine.v1.Batch/Compute\"") < 1; i++)
        {
            await Task.Delay(50);
            metrics = await _service.Http.GetStringAsync("/metrics");
        }

        Assert.True(Value(metrics, "mixengine_calls_total", "method=\"mixengine.v1.Mixing/Predict\"", "status=\"OK\"") >= 1, metrics);
        Assert.True(Value(metrics, "mixengine_calls_total", "method=\"mixengine.v1.Mixing/Predict\"", "status=\"InvalidArgument\"") >= 1);
        Assert.True(Value(metrics, "mixengine_calls_total", "method=\"mixengine.v1.Shelves/GetPaint\"", "status=\"OK\"") >= 1);
        Assert.True(Value(metrics, "mixengine_call_duration_seconds_count", "method=\"mixengine.v1.Mixing/Match\"") >= 1);
        Assert.True(Value(metrics, "mixengine_items_total", "question=\"Words\"", "outcome=\"OK\"") >= 1);
        Assert.True(Value(metrics, "mixengine_items_total", "question=\"None\"", "outcome=\"InvalidArgument\"") >= 1);
        Assert.True(Value(metrics, "mixengine_solve_duration_seconds_count", "question=\"Words\"") >= 1);
        Assert.True(Value(metrics, "mixengine_recipes_searched_total") >= 1);
        Assert.Contains("dotnet_gc_collections_total", metrics);
        Assert.All(["kelp", "home", "qqqq", "5a6b3c"], word => Assert.DoesNotContain(word, metrics));
    }

    // The sum of all series of that name that have these labels.
    private static double Value(string metrics, string name, params string[] labels) => metrics.Split('\n')
        .Where(line => Regex.IsMatch(line, $"^{name}[ {{]") && labels.All(line.Contains))
        .Sum(line => double.Parse(line[(line.LastIndexOf('}') + 1)..].Trim().Split(' ')[0], System.Globalization.CultureInfo.InvariantCulture));
}

using System.Diagnostics;
using Grpc.Core;
using MixEngine.Service.Options;
using MixEngine.V1;

namespace MixEngine.Service.Tests.Calls;

/// <summary>Case 16: work that nobody waits for any more ends.</summary>
public sealed class CancellationTests : IAsyncLifetime
{
    // The rule is 250 ms. The factor is for machines that do other things besides; the search itself would take minutes.
    private static readonly TimeSpan Generous = TimeSpan.FromMilliseconds(250 * 40);

    private readonly TestService _service = new() { Deadline = new DeadlineOptions { WhereNoneIsGiven = TimeSpan.FromSeconds(1.5) } };

    public async ValueTask InitializeAsync()
    {
        await _service.InitializeAsync();
        _service.Import("large", Coast.Large(300));

        // Derived once, so that what follows is the search alone.
        await _service.Mixing.MatchAsync(new MatchRequest { Shelf = "large", Target = new ColorInput { Text = "#888888" }, Paints = 1, Drops = 1 }, deadline: DateTime.UtcNow.AddMinutes(2));
    }

    public ValueTask DisposeAsync() => _service.DisposeAsync();

    [Fact]
    public async Task A_search_stops_by_its_deadline()
    {
        await AssertUnproven(_service.Mixing.MatchAsync(Long(), deadline: DateTime.UtcNow.AddMilliseconds(100)));
        await AssertWorkEnds();
    }

    [Fact]
    public async Task A_search_without_a_deadline_gets_one()
    {
        await AssertUnproven(_service.Mixing.MatchAsync(Long()));
        await AssertWorkEnds();
    }

    [Fact]
    public async Task A_search_answers_its_best_shortly_before_its_deadline()
    {
        var answer = await _service.Mixing.MatchAsync(Long(), deadline: DateTime.UtcNow.AddSeconds(5));
        Assert.False(answer.Proven);
        Assert.NotEmpty(answer.Matches);
        Assert.Contains(answer.Remarks, remark => remark.Contains("Stopped when the time was up", StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_search_over_json_gets_a_deadline_too()
    {
        using var content = new StringContent("""{"shelf": "large", "target": {"text": "#ff00ff"}, "drops": 80}""", System.Text.Encoding.UTF8, "application/json");
        using var answer = await _service.Http.PostAsync("/v1/match", content);
        Assert.True(answer.StatusCode == System.Net.HttpStatusCode.GatewayTimeout || (await answer.Content.ReadAsStringAsync()).Contains("\"proven\":false", StringComparison.Ordinal));
        await AssertWorkEnds();
    }

    [Fact]
    public async Task Layers_upon_layers_stop_when_their_client_gives_up()
    {
        // Every paint of the shelf in a hundred coats each, over and over: minutes.
        var request = new GlazeRequest { Shelf = "large", Recipe = Pebbles(0), Coats = 100, Over = new Surface { Primer = "grey" } };
        request.Over.Coats.Add(Enumerable.Range(1, 12).Select(layer => new Coats { Recipe = Pebbles(layer * 24), Coats_ = 100 }));
        using var patience = new CancellationTokenSource();
        var call = _service.Mixing.GlazeAsync(request, deadline: DateTime.UtcNow.AddHours(1), cancellationToken: patience.Token);
        await Underway();
        await patience.CancelAsync();
        Assert.Equal(StatusCode.Cancelled, (await Assert.ThrowsAsync<RpcException>(() => call.ResponseAsync)).StatusCode);
        await AssertWorkEnds();
    }

    [Fact]
    public async Task A_glaze_sought_backwards_stops_when_its_client_gives_up()
    {
        // Every paint of the shelf in two dozen let-downs and a hundred coats, over every step of a long ramp.
        var request = new GlazeToRequest { Shelf = "large", Target = new ColorInput { Text = "#5a6b3c" }, Coats = 100, MediumParts = { Enumerable.Range(0, 24).Select(parts => (double)parts) } };
        request.Over.Add(Enumerable.Range(0, 64).Select(layer => new Surface { Recipe = new RecipeInput { Text = FormattableString.Invariant($"pebble {layer:000}") } }));
        using var patience = new CancellationTokenSource();
        var call = new Layering.LayeringClient(_service.Channel).GlazeToAsync(request, deadline: DateTime.UtcNow.AddHours(1), cancellationToken: patience.Token);
        await Underway();
        await patience.CancelAsync();
        Assert.Equal(StatusCode.Cancelled, (await Assert.ThrowsAsync<RpcException>(() => call.ResponseAsync)).StatusCode);
        await AssertWorkEnds();
    }

    [Fact]
    public async Task A_search_stops_when_its_client_gives_up()
    {
        using var patience = new CancellationTokenSource();
        var call = _service.Mixing.MatchAsync(Long(), deadline: DateTime.UtcNow.AddHours(1), cancellationToken: patience.Token);
        await Underway();
        await patience.CancelAsync();
        Assert.Equal(StatusCode.Cancelled, (await Assert.ThrowsAsync<RpcException>(() => call.ResponseAsync)).StatusCode);
        await AssertWorkEnds();
    }

    [Fact]
    public async Task A_search_stops_when_its_client_dies()
    {
        using (var channel = UnixChannel.To(_service.Socket))
        {
            _ = new Mixing.MixingClient(channel).MatchAsync(Long(), deadline: DateTime.UtcNow.AddHours(1)).ResponseAsync.ContinueWith(_ => { }, TaskScheduler.Default);
            await Underway();
        }

        await AssertWorkEnds();
    }

    [Fact]
    public async Task A_search_over_json_stops_when_its_client_dies()
    {
        using (var http = new HttpClient { BaseAddress = new Uri(_service.HttpAddress) })
        {
            var request = new StringContent("""{"shelf": "large", "target": {"text": "#ff00ff"}, "drops": 80}""", System.Text.Encoding.UTF8, "application/json");
            _ = http.PostAsync("/v1/match", request).ContinueWith(_ => { }, TaskScheduler.Default);
            await Underway();
        }

        await AssertWorkEnds();
    }

    // The search is quick where the target is near some mixture; far from all of them, with drops by the bottle, it takes its time.
    private static MatchRequest Long() => new() { Shelf = "large", Target = new ColorInput { Text = "#ff00ff" }, Drops = 80 };

    private static RecipeInput Pebbles(int first)
    {
        var recipe = new RecipeInput();
        recipe.Parts.Add(Enumerable.Range(first, 24).Select(i => new PartInput { Paint = FormattableString.Invariant($"pebble {i % 300:000}"), Parts = 1 }));
        return recipe;
    }

    // What was found in time is answered and says that it is not proven, unless even that took too long.
    private static async Task AssertUnproven(AsyncUnaryCall<MatchResponse> call)
    {
        try
        {
            Assert.False((await call).Proven);
        }
        catch (RpcException late)
        {
            Assert.Equal(StatusCode.DeadlineExceeded, late.StatusCode);
        }
    }

    private async Task Underway()
    {
        while (_service.Requests.Count == 0)
        {
            await Task.Delay(1);
        }

        await Task.Delay(100);
        Assert.Equal(1, _service.Requests.Count);
    }

    private async Task AssertWorkEnds()
    {
        var start = Stopwatch.GetTimestamp();
        while (_service.Requests.Count > 0)
        {
            Assert.True(Stopwatch.GetElapsedTime(start) < Generous, "The work goes on.");
            await Task.Delay(5);
        }
    }
}

using System.Diagnostics;
using Google.Protobuf;
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
        _service.Import("greys", Coast.Greys());

        // Derived once, so that what follows is the search alone.
        foreach (var shelf in (string[])["large", "greys"])
        {
            await _service.Mixing.MatchAsync(new MatchRequest { Shelf = shelf, Target = new ColorInput { Text = "#888888" }, Paints = 1, Drops = 1 }, deadline: DateTime.UtcNow.AddMinutes(2));
        }
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
        Assert.Contains(answer.Remarks, remark => remark.Contains("Stopped before all of", StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_search_over_json_gets_a_deadline_too()
    {
        using var content = new StringContent(JsonFormatter.Default.Format(Long()), System.Text.Encoding.UTF8, "application/json");
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
    public async Task A_watched_search_tells_its_best_so_far_and_stops_when_its_client_gives_up()
    {
        using var patience = new CancellationTokenSource();
        using var call = _service.Mixing.MatchWithProgress(new MatchWithProgressRequest { Match = Long() }, cancellationToken: patience.Token);
        Assert.True(await call.ResponseStream.MoveNext(TestContext.Current.CancellationToken));
        var progress = call.ResponseStream.Current.Progress;
        Assert.InRange(progress.Done, 0, 1);
        Assert.NotEqual("", progress.Doing);
        Assert.False(progress.SoFar.Proven);
        var best = progress.SoFar.Matches[0];
        Assert.InRange(progress.SoFar.PossibleDeltaE00, 0, best.DeltaE00);
        await patience.CancelAsync();
        await Assert.ThrowsAsync<RpcException>(async () => { while (await call.ResponseStream.MoveNext()) { } });
        await AssertWorkEnds();

        // What was told is a recipe with the colour that was told.
        var made = await _service.Mixing.PredictAsync(new PredictRequest { Shelf = "greys", Recipe = new RecipeInput { Text = best.Recipe.Text } });
        Assert.Equal(made.Color.Hex, best.Color.Hex);
    }

    [Fact]
    public async Task A_watched_search_with_a_deadline_ends_with_its_best_and_says_so()
    {
        using var call = _service.Mixing.MatchWithProgress(new MatchWithProgressRequest { Match = Long() }, deadline: DateTime.UtcNow.AddSeconds(5));
        var parts = await call.ResponseStream.ReadAllAsync(TestContext.Current.CancellationToken).ToListAsync(TestContext.Current.CancellationToken);
        Assert.False(parts[^1].Answer.Proven);
        Assert.All(parts.SkipLast(1).Select(part => part.Progress.SoFar.Matches[0].DeltaE00), earlier => Assert.True(earlier >= parts[^1].Answer.Matches[0].DeltaE00));
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
            var request = new StringContent(JsonFormatter.Default.Format(Long()), System.Text.Encoding.UTF8, "application/json");
            _ = http.PostAsync("/v1/match", request).ContinueWith(_ => { }, TaskScheduler.Default);
            await Underway();
        }

        await AssertWorkEnds();
    }

    private static MatchRequest Long() => new()
    {
        Shelf = "greys", Target = new ColorInput { Text = "#7d7f80" }, Drops = 80, Tolerance = 0, Lights = { new MatchLight { Name = "D65" }, new MatchLight { Name = "A" }, new MatchLight { Name = "FL11" } },
    };

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
        await Waiting.UntilAsync(() => _service.Requests.Count > 0, "Nothing is asked, or it was answered before anybody saw it under way.");
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

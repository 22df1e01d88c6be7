using MixEngine.Service.Options;
using MixEngine.V1;

namespace MixEngine.Service.Tests.SlowClients;

/// <summary>Clients that die without a word: what they had under way ends, and whoever goes on with their batch finds what was answered.</summary>
public sealed class DeadClientTests : IAsyncLifetime
{
    // It is let go after four seconds.
    private readonly TestService _service = new() { Options = options => options with { Silence = new SilenceOptions { Seconds = 4 } } };

    public ValueTask InitializeAsync() => _service.InitializeAsync();

    public ValueTask DisposeAsync() => _service.DisposeAsync();

    [Fact]
    public async Task The_batch_of_a_client_that_died_is_let_go_and_goes_on_with_another()
    {
        var items = Enumerable.Range(0, 60).Select(BatchTests.Item).ToArray();
        using var dead = new FrozenConnection(_service.Socket);
        await using (var batch = await BatchTests.Stream.OpenAsync(new Batch.BatchClient(dead.Channel), "orphan", "home"))
        {
            await batch.SendAsync(items[..20]);
            await KeptAsync(20);
            dead.Freeze();
            await LetGoAsync();
        }

        await using var heir = await BatchTests.Stream.OpenAsync(new Batch.BatchClient(_service.Channel), "orphan", "home");
        Assert.Equal(20, heir.Opened.Kept);
        var reading = heir.ReadToEndAsync();
        await heir.SendAsync(items);
        await heir.CloseAsync();
        var answers = await reading;
        Assert.Equal(items.Select(item => item.Key).Order(), answers.Select(answer => answer.Key).Order());
        Assert.Equal(20, answers.Count(answer => answer.Kept));
    }

    [Fact]
    public async Task A_client_that_died_with_answers_unread_and_more_asked_is_let_go_too()
    {
        using var dead = new FrozenConnection(_service.Socket);
        await using var batch = await BatchTests.Stream.OpenAsync(new Batch.BatchClient(dead.Channel), "unread", "home");
        var sending = batch.SendAsync([.. Enumerable.Range(0, 20_000).Select(SlowClientTests.Item)]);

        // The windows of a connection that nobody reads hold three answers or so; more are kept only where several were ready at once.
        await KeptAsync(1);
        dead.Freeze();
        await LetGoAsync();
        Assert.False(sending.IsCompletedSuccessfully);
    }

    [Fact]
    public async Task A_client_that_is_silent_and_alive_is_kept()
    {
        await using var batch = await BatchTests.Stream.OpenAsync(new Batch.BatchClient(_service.Channel), "thinking", "home");

        // Longer than a dead one is kept, and longer than a request that is no stream may pause: its pings are answered.
        await Task.Delay(TimeSpan.FromSeconds(8), TestContext.Current.CancellationToken);
        await batch.SendAsync(BatchTests.Item(0));
        await batch.CloseAsync();
        Assert.Single(await batch.ReadToEndAsync());
    }

    private Task KeptAsync(int answers) => Waiting.UntilAsync(
        () => int.Parse(_service.Query("SELECT CAST(count(*) AS TEXT) FROM batch_answer")[0], System.Globalization.CultureInfo.InvariantCulture) >= answers,
        $"Fewer than {answers} answers are kept.");

    private Task LetGoAsync() => Waiting.UntilAsync(() => _service.Requests.Count == 0, "What a dead client asked is still under way.");
}

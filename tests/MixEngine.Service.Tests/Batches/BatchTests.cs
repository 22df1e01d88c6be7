using Grpc.Core;
using Google.Rpc;
using MixEngine.V1;

namespace MixEngine.Service.Tests;

/// <summary>Batches as a client sees them.</summary>
public class BatchTests(TestService service) : IClassFixture<TestService>
{
    private Batch.BatchClient Client => new(service.Channel);

    [Fact]
    public async Task Every_item_is_answered_once_by_its_key_and_as_if_it_were_asked_alone()
    {
        var items = Enumerable.Range(0, 300).Select(Item).ToArray();
        await using var batch = await Stream.OpenAsync(Client, "once", "home");
        var reading = batch.ReadToEndAsync();
        await batch.SendAsync(items);
        await batch.CloseAsync();
        var answers = await reading;

        Assert.Equal(items.Select(item => item.Key).Order(), answers.Select(answer => answer.Key).Order());
        var alone = service.Mixing.Ramp(new RampRequest { Shelf = "home", Steps = 4, Drops = 5, Through = { Text("tarred rope"), Text("kelp") } }, cancellationToken: TestContext.Current.CancellationToken);
        Assert.Equal(alone, answers.Single(answer => answer.Key == "ramp-0").Ramp);
        Assert.All(answers.Where(answer => answer.Key.StartsWith("match", StringComparison.Ordinal)), answer => Assert.NotEmpty(answer.Match.Matches));
        Assert.All(answers.Where(answer => answer.Key.StartsWith("glaze", StringComparison.Ordinal)), answer => Assert.Equal(2, answer.Glaze.Coats.Count));
    }

    [Fact]
    public async Task What_is_wrong_with_one_item_does_not_stop_the_others()
    {
        await using var batch = await Stream.OpenAsync(Client, "faults", "home");
        var reading = batch.ReadToEndAsync();
        await batch.SendAsync(
            new BatchItem { Key = "unknown", Predict = new PredictRequest { Recipe = Text("no such paint") } },
            new BatchItem { Key = "empty" },
            new BatchItem { Key = "", Words = new WordsRequest { Color = new ColorInput { Text = "#123456" } } },
            new BatchItem { Key = "good", Words = new WordsRequest { Color = new ColorInput { Text = "#123456" } } });
        await batch.CloseAsync();
        var answers = (await reading).ToDictionary(answer => answer.Key);

        Assert.Equal((int)StatusCode.InvalidArgument, answers["unknown"].Error.Code);
        Assert.Contains("recipe", Assert.Single(answers["unknown"].Error.GetDetail<BadRequest>().FieldViolations).Field, StringComparison.Ordinal);
        Assert.Contains("Nothing is asked", answers["empty"].Error.Message, StringComparison.Ordinal);
        Assert.Contains("1 to 200", answers[""].Error.Message, StringComparison.Ordinal);
        Assert.Equal("#123456", answers["good"].Words.Color.Hex);
    }

    [Fact]
    public async Task An_item_that_would_fill_the_queues_is_refused_by_its_size()
    {
        await using var batch = await Stream.OpenAsync(Client, "large", "home");
        var reading = batch.ReadToEndAsync();
        await batch.SendAsync(
            new BatchItem { Key = "large", Predict = new PredictRequest { Recipe = Text("kelp" + new string(' ', 256 << 10)) } },
            new BatchItem { Key = "less", Predict = new PredictRequest { Recipe = Text("kelp" + new string(' ', 255 << 10)) } });
        await batch.CloseAsync();
        var answers = (await reading).ToDictionary(answer => answer.Key);
        Assert.Equal((int)StatusCode.InvalidArgument, answers["large"].Error.Code);
        Assert.Contains("at most 256 KiB", answers["large"].Error.Message, StringComparison.Ordinal);
        Assert.Equal("item", Assert.Single(answers["large"].Error.GetDetail<BadRequest>().FieldViolations).Field);

        // That one is looked at: its recipe is too long, which is another matter.
        Assert.StartsWith("recipe.text: The recipe has", answers["less"].Error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_item_that_another_connection_finished_meanwhile_is_answered_with_that_answer()
    {
        // Both are open before anything is asked: what the first finishes the second has not been sent.
        await using var here = await Stream.OpenAsync(Client, "shared", "home");
        await using var there = await Stream.OpenAsync(Client, "shared", "home");
        var items = Enumerable.Range(0, 40).Select(Item).ToArray();
        await here.SendAsync(items);
        await here.CloseAsync();
        var first = await here.ReadToEndAsync();

        await there.SendAsync([.. items, .. items]);
        await there.CloseAsync();
        var second = await there.ReadToEndAsync();
        Assert.All(second, answer => Assert.True(answer.Kept));
        second.ForEach(answer => answer.Kept = false);
        Assert.Equal(first.OrderBy(answer => answer.Key), second.OrderBy(answer => answer.Key));
    }

    [Fact]
    public async Task Two_connections_that_solve_the_same_items_at_once_both_get_each_answer_once()
    {
        var items = Enumerable.Range(0, 200).Select(Item).ToArray();
        var both = await Task.WhenAll(Enumerable.Range(0, 2).Select(async _ =>
        {
            await using var batch = await Stream.OpenAsync(Client, "race", "home");
            var reading = batch.ReadToEndAsync();
            await batch.SendAsync(items);
            await batch.CloseAsync();
            return (await reading).OrderBy(answer => answer.Key).ToArray();
        }));
        Assert.All(both, answers => Assert.Equal(items.Select(item => item.Key).Order(), answers.Select(answer => answer.Key)));
        Assert.All(both[0].Zip(both[1]), pair => Assert.Equal(pair.First.AnswerCase, pair.Second.AnswerCase));
    }

    [Fact]
    public async Task A_batch_opened_again_sends_what_is_not_acknowledged_and_solves_nothing_twice()
    {
        List<BatchAnswer> first;
        await using (var batch = await Stream.OpenAsync(Client, "again", "home"))
        {
            var reading = batch.ReadToEndAsync();
            await batch.SendAsync([.. Enumerable.Range(0, 40).Select(Item)]);
            await batch.CloseAsync();
            first = await reading;
        }

        await using (var batch = await Stream.OpenAsync(Client, "again", "home"))
        {
            Assert.Equal(40, batch.Opened.Kept);
            var reading = batch.ReadToEndAsync();
            await batch.AcknowledgeAsync("ramp-0", "match-1");

            // Sent again as if the connection had broken: answered from what is kept. And one that is new.
            await batch.SendAsync([.. Enumerable.Range(2, 40).Select(Item)]);
            await batch.CloseAsync();
            var answers = await reading;
            Assert.Equal(40, answers.Count(answer => answer.Kept));
            Assert.Equal(["glaze-41", "match-40"], answers.Where(answer => !answer.Kept).Select(answer => answer.Key).Order());
            Assert.All(first, before =>
            {
                var now = answers.Single(answer => answer.Key == before.Key).Clone();
                now.Kept = false;
                Assert.Equal(before, now);
            });
        }

        // What was acknowledged is not kept, and its key not used again.
        await using (var batch = await Stream.OpenAsync(Client, "again", "home"))
        {
            Assert.Equal((40, 2), (batch.Opened.Kept, batch.Opened.Acknowledged));
            var reading = batch.ReadToEndAsync();
            await batch.SendAsync(Item(0), new BatchItem { Key = "glaze-2", Words = new WordsRequest { Color = new ColorInput { Text = "#123456" } } });
            await batch.CloseAsync();
            var refused = (await reading).Where(answer => !answer.Kept).ToArray();
            Assert.Equal(["glaze-2", "ramp-0"], refused.Select(answer => answer.Key).Order());
            Assert.All(refused, answer => Assert.Equal((int)StatusCode.AlreadyExists, answer.Error.Code));
        }

        Assert.Equal(40, Client.DiscardBatch(new DiscardBatchRequest { Batch = "again" }, cancellationToken: TestContext.Current.CancellationToken).Discarded);
    }

    [Fact]
    public async Task A_client_that_does_not_read_holds_the_service_back()
    {
        await using var batch = await Stream.OpenAsync(Client, "slow", "home");
        var sending = batch.SendAsync([.. Enumerable.Range(0, 20_000).Select(i => new BatchItem { Key = $"{i}", Glaze = new GlazeRequest { Recipe = Text("tide pool"), MediumParts = 6, Coats = 30, Over = new Surface { Primer = "grey" }, View = new View { WithReflectance = true } } })]);

        // It reads no more than it has room for, so that sending does not come to an end while nothing is read.
        await Task.WhenAny(sending, Task.Delay(TimeSpan.FromSeconds(3), TestContext.Current.CancellationToken));
        Assert.False(sending.IsCompleted);
        Assert.True(await batch.ProgressSeenAsync() < 10_000);
    }

    [Fact]
    public async Task Cancelling_ends_the_work_soon()
    {
        var before = service.Requests.Count;
        using var cancel = new CancellationTokenSource();
        var call = Client.Solve(cancellationToken: cancel.Token);
        await call.RequestStream.WriteAsync(new SolveRequest { Open = new OpenBatch { Batch = "cancelled", Shelf = "home" } }, TestContext.Current.CancellationToken);
        for (var i = 0; i < 20; i++)
        {
            await call.RequestStream.WriteAsync(new SolveRequest { Item = new BatchItem { Key = $"{i}", Match = new MatchRequest { Target = new ColorInput { Text = "#5a6b3c" }, Paints = 3, Drops = 80 } } }, TestContext.Current.CancellationToken);
        }

        await cancel.CancelAsync();
        for (var waited = 0; service.Requests.Count > before; waited++)
        {
            Assert.True(waited < 200, "The stream is still being worked on.");
            await Task.Delay(25, TestContext.Current.CancellationToken);
        }
    }

    [Fact]
    public async Task A_stream_that_does_not_open_its_batch_is_refused()
    {
        using var call = Client.Solve(cancellationToken: TestContext.Current.CancellationToken);
        await call.RequestStream.WriteAsync(new SolveRequest { Close = new CloseBatch() }, TestContext.Current.CancellationToken);
        var fault = await Assert.ThrowsAsync<RpcException>(() => call.ResponseStream.MoveNext(TestContext.Current.CancellationToken));
        Assert.Equal(StatusCode.InvalidArgument, fault.StatusCode);
    }

    [Fact]
    public void A_unary_batch_answers_in_order_with_faults_in_their_place()
    {
        var answers = Client.Compute(
            new ComputeRequest
            {
                Shelf = "home",
                Items =
                {
                    new BatchItem { Key = "a", Predict = new PredictRequest { Recipe = Text("2 tarred rope + 1 kelp") } },
                    new BatchItem { Key = "b", Predict = new PredictRequest { Recipe = Text("nothing") } },
                    new BatchItem { Key = "c", Difference = new DifferenceRequest { First = new ColorInput { Text = "#202020" }, Second = new ColorInput { Text = "#c0c0c0" } } },
                },
            },
            cancellationToken: TestContext.Current.CancellationToken).Answers;
        Assert.Equal(["a", "b", "c"], answers.Select(answer => answer.Key));
        Assert.NotNull(answers[0].Predict);
        Assert.NotNull(answers[1].Error);
        Assert.Contains("lighter", answers[2].Difference.Words, StringComparison.Ordinal);
    }

    [Fact]
    public void A_unary_batch_states_its_limit()
    {
        var fault = Assert.Throws<RpcException>(() => Client.Compute(new ComputeRequest { Items = { Enumerable.Range(0, 201).Select(Item) } }, cancellationToken: TestContext.Current.CancellationToken));
        Assert.Contains("1 to 200", fault.Status.Detail, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_unary_batch_is_asked_in_JSON_too()
    {
        var response = await service.Http.PostAsync(
            new Uri("/v1/batch", UriKind.Relative),
            new StringContent("""{"shelf":"home","items":[{"key":"a","words":{"color":{"text":"#5a6b3c"}}},{"key":"b","predict":{"recipe":{"text":"zzz"}}}]}""", System.Text.Encoding.UTF8, "application/json"),
            TestContext.Current.CancellationToken);
        var json = await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.True(response.IsSuccessStatusCode, json);
        Assert.Contains("\"#5a6b3c\"", json, StringComparison.Ordinal);
        Assert.Contains("fieldViolations", json, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_batch_that_is_discarded_while_it_is_answered_says_so()
    {
        await using var batch = await Stream.OpenAsync(Client, "thrown-away", "home");
        Client.DiscardBatch(new DiscardBatchRequest { Batch = "thrown-away" }, cancellationToken: TestContext.Current.CancellationToken);
        await batch.SendAsync(Item(1));
        await batch.CloseAsync();
        var fault = await Assert.ThrowsAsync<RpcException>(batch.ReadToEndAsync);
        Assert.Equal(StatusCode.Aborted, fault.StatusCode);
        Assert.Contains("'thrown-away' was discarded", fault.Status.Detail, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_batch_that_was_discarded_and_opened_anew_is_not_taken_for_the_one_before()
    {
        await using var before = await Stream.OpenAsync(Client, "anew", "home");
        await before.SendAsync(Item(1));
        Assert.Equal(1, await before.ProgressSeenAsync());
        Client.DiscardBatch(new DiscardBatchRequest { Batch = "anew" }, cancellationToken: TestContext.Current.CancellationToken);

        await using var after = await Stream.OpenAsync(Client, "anew", "home");
        await after.SendAsync(Item(2));
        await after.CloseAsync();
        Assert.False(Assert.Single(await after.ReadToEndAsync()).Kept);

        // The first answer of both, and yet another batch's.
        await before.SendAsync(Item(2));
        await before.CloseAsync();
        Assert.Equal(StatusCode.Aborted, (await Assert.ThrowsAsync<RpcException>(before.ReadToEndAsync)).StatusCode);
    }

    [Fact]
    public async Task An_item_whose_key_another_connection_used_for_another_question_is_refused_and_the_answer_there_still_sent()
    {
        await using var here = await Stream.OpenAsync(Client, "one-key", "home");
        await using var there = await Stream.OpenAsync(Client, "one-key", "home");
        await here.SendAsync(Item(1));
        await here.CloseAsync();
        var first = Assert.Single(await here.ReadToEndAsync());

        var other = Item(2);
        other.Key = first.Key;
        await there.SendAsync(other, Item(1), Item(1));
        await there.CloseAsync();
        var answers = await there.ReadToEndAsync();
        Assert.Equal(2, answers.Count);
        Assert.Equal((int)StatusCode.AlreadyExists, Assert.Single(answers, answer => answer.Error is not null).Error.Code);
        Assert.Equal(first.Match, Assert.Single(answers, answer => answer.Kept).Match);
    }

    [Fact]
    public async Task An_answer_that_a_replica_kept_before_they_had_numbers_is_sent()
    {
        await using var here = await Stream.OpenAsync(Client, "unnumbered", "home");
        await here.SendAsync(Item(1));
        Assert.Equal(1, await here.ProgressSeenAsync());

        await using var there = await Stream.OpenAsync(Client, "unnumbered", "home");
        await there.SendAsync(Item(2), Item(4));
        await there.CloseAsync();
        Assert.Equal(3, (await there.ReadToEndAsync()).Count);
        Assert.Equal(2, service.Sql("UPDATE batch_answer SET number = 0 WHERE batch_id = 'unnumbered' AND item_key <> 'match-1'"));

        await here.SendAsync(Item(1), Item(2), Item(4));
        await here.CloseAsync();
        Assert.Equal([Item(2).Key, Item(4).Key], (await here.ReadToEndAsync()).Select(answer => answer.Key));
    }

    internal static RecipeInput Text(string text) => new() { Text = text };

    internal static BatchItem Item(int i) => (i % 3) switch
    {
        0 => new BatchItem { Key = $"ramp-{i}", Ramp = new RampRequest { Steps = 4, Drops = 5, Through = { Text("tarred rope"), Text("kelp") } } },
        1 => new BatchItem { Key = $"match-{i}", Match = new MatchRequest { Target = new ColorInput { Text = FormattableString.Invariant($"lab:{20 + i % 60},{i % 17},{i % 23}") }, Paints = 2, Drops = 4 } },
        _ => new BatchItem { Key = $"glaze-{i}", Glaze = new GlazeRequest { Recipe = Text("tide pool"), MediumParts = 2 + i % 7, Coats = 2, Over = new Surface { Primer = "grey" } } },
    };

    /// <summary>One connection of a batch.</summary>
    internal sealed class Stream : IAsyncDisposable
    {
        private readonly AsyncDuplexStreamingCall<SolveRequest, SolveResponse> _call;

        private Stream(AsyncDuplexStreamingCall<SolveRequest, SolveResponse> call, BatchOpened opened) => (_call, Opened) = (call, opened);

        public BatchOpened Opened { get; }

        public static async Task<Stream> OpenAsync(Batch.BatchClient client, string batch, string shelf)
        {
            var call = client.Solve(cancellationToken: TestContext.Current.CancellationToken);
            await call.RequestStream.WriteAsync(new SolveRequest { Open = new OpenBatch { Batch = batch, Shelf = shelf } });
            Assert.True(await call.ResponseStream.MoveNext(TestContext.Current.CancellationToken));
            return new Stream(call, call.ResponseStream.Current.Opened);
        }

        public async Task SendAsync(params BatchItem[] items)
        {
            foreach (var item in items)
            {
                await _call.RequestStream.WriteAsync(new SolveRequest { Item = item });
            }
        }

        public Task AcknowledgeAsync(params string[] keys) => _call.RequestStream.WriteAsync(new SolveRequest { Acknowledge = new AcknowledgeAnswers { Keys = { keys } } });

        public async Task CloseAsync()
        {
            await _call.RequestStream.WriteAsync(new SolveRequest { Close = new CloseBatch() });
            await _call.RequestStream.CompleteAsync();
        }

        public async Task<List<BatchAnswer>> ReadToEndAsync()
        {
            var answers = new List<BatchAnswer>();
            await ReadEachAsync(answers.Add);
            return answers;
        }

        public async Task ReadEachAsync(Action<BatchAnswer> seen)
        {
            while (await _call.ResponseStream.MoveNext(TestContext.Current.CancellationToken))
            {
                if (_call.ResponseStream.Current.Answer is { } answer)
                {
                    seen(answer);
                }
            }
        }

        public async Task<int> ProgressSeenAsync()
        {
            while (await _call.ResponseStream.MoveNext(TestContext.Current.CancellationToken))
            {
                if (_call.ResponseStream.Current.Progress is { } progress)
                {
                    return progress.Read;
                }
            }

            return int.MaxValue;
        }

        public ValueTask DisposeAsync()
        {
            _call.Dispose();
            return ValueTask.CompletedTask;
        }
    }
}

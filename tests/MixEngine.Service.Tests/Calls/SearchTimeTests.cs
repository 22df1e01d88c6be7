using System.Diagnostics;
using Grpc.Core;
using Microsoft.AspNetCore.Http;
using MixEngine.Service.Calls;
using MixEngine.Service.Telemetry;

namespace MixEngine.Service.Tests.Calls;

/// <summary>The time that a search may take, while the computer's clock is set.</summary>
public sealed class SearchTimeTests
{
    private static readonly TimeSpan Hour = TimeSpan.FromHours(1);

    [Theory]
    [InlineData("60S", 60)]
    [InlineData("2M", 120)]
    [InlineData("1H", 3600)]
    [InlineData("90000m", 90)]
    [InlineData("99999999u", 99.999999)]
    [InlineData("99999999n", 0.0999999)]
    public void A_client_s_time_is_what_it_sent_less_what_has_passed(string timeout, double seconds)
    {
        using var call = new DeadlineCallContext(new EarlierCall(timeout, TimeSpan.Zero), null, CancellationToken.None, TimeProvider.System);
        Assert.InRange(call.TimeLeft!.Value, TimeSpan.FromSeconds(seconds) - Stopwatch.GetElapsedTime(call.Record!.Begun), TimeSpan.FromSeconds(seconds));
    }

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("S")]
    [InlineData("5")]
    [InlineData("5s")]
    [InlineData("-5S")]
    [InlineData("123456789S")]
    public void What_is_no_time_is_none(string? timeout)
    {
        using var call = new DeadlineCallContext(new EarlierCall(timeout, TimeSpan.Zero), null, CancellationToken.None, TimeProvider.System);
        Assert.Null(call.TimeLeft);
    }

    [Fact]
    public void A_clock_set_forward_ends_no_search()
    {
        using var call = new DeadlineCallContext(new EarlierCall("60S", Hour), null, CancellationToken.None, TimeProvider.System);
        using var search = SearchTime.Of(call);
        Assert.False(search.IsCancellationRequested);
        Assert.InRange(call.TimeLeft!.Value, TimeSpan.FromSeconds(1), TimeSpan.FromSeconds(60));
    }

    [Fact]
    public async Task A_clock_set_back_leaves_no_search_without_an_end()
    {
        using var call = new DeadlineCallContext(new EarlierCall("50m", -Hour), null, CancellationToken.None, TimeProvider.System);
        using var search = SearchTime.Of(call);
        await Waiting.UntilAsync(() => search.IsCancellationRequested, "The search goes on after its time.");
    }

    [Fact]
    public void The_limit_where_no_time_is_given_runs_by_no_clock_that_can_be_set()
    {
        var clock = new SettableClock();
        using var call = new DeadlineCallContext(new EarlierCall(null, TimeSpan.Zero), TimeSpan.FromSeconds(60), CancellationToken.None, clock);
        foreach (var jump in new[] { Hour, -Hour })
        {
            clock.Jump = jump;
            using var search = SearchTime.Of(call);
            Assert.False(search.IsCancellationRequested);
            Assert.InRange(call.TimeLeft!.Value, TimeSpan.FromSeconds(1), TimeSpan.FromSeconds(60));
        }
    }

    [Fact]
    public void An_item_has_its_own_time_within_its_batch_s()
    {
        using var batch = new DeadlineCallContext(new EarlierCall("60S", Hour), null, CancellationToken.None, TimeProvider.System);
        using var brief = new DeadlineCallContext(batch, TimeSpan.FromSeconds(10), CancellationToken.None, TimeProvider.System);
        using var patient = new DeadlineCallContext(batch, TimeSpan.FromHours(2), CancellationToken.None, TimeProvider.System);
        Assert.InRange(brief.TimeLeft!.Value, TimeSpan.Zero, TimeSpan.FromSeconds(10));
        Assert.InRange(patient.TimeLeft!.Value, TimeSpan.FromSeconds(1), TimeSpan.FromSeconds(60));
    }

    // The time of day jumps; what is measured does not.
    private sealed class SettableClock : TimeProvider
    {
        public TimeSpan Jump { get; set; }

        public override DateTimeOffset GetUtcNow() => base.GetUtcNow() + Jump;
    }

    // A call that arrived before the clock was set forward: its deadline was written down by the old time.
    private sealed class EarlierCall : ServerCallContext
    {
        private readonly DateTime _deadline;

        public EarlierCall(string? timeout, TimeSpan forward)
        {
            var request = new DefaultHttpContext();
            request.Features.Set(new CallRecord());
            request.Request.Headers["grpc-timeout"] = timeout;
            UserStateCore["__HttpContext"] = request;
            _deadline = ClientTimeout.Of(request.Request) is { } given ? DateTime.UtcNow - forward + given : DateTime.MaxValue;
        }

        protected override string MethodCore => "mixengine.v1.Mixing/Match";

        protected override string HostCore => "";

        protected override string PeerCore => "";

        protected override DateTime DeadlineCore => _deadline;

        protected override Metadata RequestHeadersCore => [];

        protected override CancellationToken CancellationTokenCore => CancellationToken.None;

        protected override Metadata ResponseTrailersCore => [];

        protected override Status StatusCore { get; set; }

        protected override WriteOptions? WriteOptionsCore { get; set; }

        protected override AuthContext AuthContextCore => new(null, []);

        protected override IDictionary<object, object> UserStateCore { get; } = new Dictionary<object, object>();

        protected override ContextPropagationToken CreatePropagationTokenCore(ContextPropagationOptions? options) => throw new NotSupportedException();

        protected override Task WriteResponseHeadersAsyncCore(Metadata responseHeaders) => Task.CompletedTask;
    }
}

using System.Globalization;
using System.Threading.RateLimiting;
using Google.Protobuf.WellKnownTypes;
using Google.Rpc;
using Grpc.Core;
using MixEngine.Service.Options;
using MixEngine.Service.Refusals;

namespace MixEngine.Service.Access;

/// <summary>Bounds how often each key may ask, so that no tool takes the service from the others. Who is at home is not counted.</summary>
internal sealed class CallRate(AccessOptions options) : IDisposable
{
    private const int RefillsPerSecond = 10;

    private readonly PartitionedRateLimiter<string> _limiter = PartitionedRateLimiter.Create<string, string>(key => RateLimitPartition.GetTokenBucketLimiter(key, _ => new TokenBucketRateLimiterOptions
    {
        // Two seconds' worth may be asked at once.
        TokenLimit = Math.Max(1, (int)(2 * options.CallsPerSecond)),
        TokensPerPeriod = Refill(options),
        ReplenishmentPeriod = TimeSpan.FromSeconds(Refill(options) / options.CallsPerSecond),
        QueueLimit = 0,
    }));

    /// <summary>Answers a request that comes in time.</summary>
    public Task CheckAsync(HttpContext context, RequestDelegate next) =>
        options.CallsPerSecond > 0 && Caller.Of(context).Key is { } key ? InTimeAsync(context, next, key) : next(context);

    private async Task InTimeAsync(HttpContext context, RequestDelegate next, string key)
    {
        using var lease = _limiter.AttemptAcquire(key);
        if (lease.IsAcquired)
        {
            await next(context);
            return;
        }

        var wait = lease.TryGetMetadata(MetadataName.RetryAfter, out var after) && after > TimeSpan.Zero ? after : TimeSpan.FromSeconds(1);
        await RefuseAsync(context, wait, string.Create(
            CultureInfo.InvariantCulture, $"This key may ask {options.CallsPerSecond} times a second. Ask again after {wait.TotalSeconds:0.###} s, or put many questions into one batch."));
    }

    /// <summary>Refuses a request that came too soon.</summary>
    /// <param name="context">The request.</param>
    /// <param name="wait">When to ask again.</param>
    /// <param name="words">Why.</param>
    public static async Task RefuseAsync(HttpContext context, TimeSpan wait, string words)
    {
        var status = new Refusal(StatusCode.ResourceExhausted, "authorization", words).ToStatus();
        status.Details.Add(Any.Pack(new RetryInfo { RetryDelay = Duration.FromTimeSpan(wait) }));
        context.Response.Headers.RetryAfter = Math.Max(1, (int)Math.Ceiling(wait.TotalSeconds)).ToString(CultureInfo.InvariantCulture);
        context.Response.Headers["grpc-retry-pushback-ms"] = ((long)Math.Ceiling(wait.TotalMilliseconds)).ToString(CultureInfo.InvariantCulture);
        await RefusedRequest.AnswerAsync(context, StatusCodes.Status429TooManyRequests, status);
    }

    private static int Refill(AccessOptions options) => Math.Max(1, (int)(options.CallsPerSecond / RefillsPerSecond));

    public void Dispose() => _limiter.Dispose();
}

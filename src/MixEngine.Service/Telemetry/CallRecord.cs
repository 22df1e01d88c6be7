using System.Diagnostics;
using Grpc.Core;
using MixEngine.Service.Access;

namespace MixEngine.Service.Telemetry;

/// <summary>What there is to say of one request when it is over.</summary>
internal sealed class CallRecord
{
    /// <summary>When it arrived, by <see cref="Stopwatch"/>.</summary>
    public long Begun { get; } = Stopwatch.GetTimestamp();

    /// <summary>How it ended; null: nobody said.</summary>
    public StatusCode? Status { get; set; }

    /// <summary>Notes how a request ended. What is said last counts.</summary>
    public static void Ended(HttpContext context, StatusCode status)
    {
        if (context.Features.Get<CallRecord>() is { } record)
        {
            record.Status = status;
        }
    }

    /// <summary>Answers a request, and records it when it is over.</summary>
    public static async Task KeepAsync(HttpContext context, RequestDelegate next, ILogger audit)
    {
        if (RpcName.Of(context) is not { } method)
        {
            await next(context);
            return;
        }

        var record = new CallRecord();
        context.Features.Set(record);
        try
        {
            await next(context);
        }
        finally
        {
            var (status, took) = (record.Status ?? StatusCode.Unknown, Stopwatch.GetElapsedTime(record.Begun));
            Measures.Called(method, status, took);

            // At home nobody needs a line for each call of their own.
            var caller = Caller.Of(context);
            if (caller.Key is not null || status == StatusCode.Unauthenticated)
            {
                Log.Asked(audit, caller.Key ?? "none", caller.Key is null ? "nobody" : caller.Owner.Name, method, status, took.TotalMilliseconds, context.Connection.RemoteIpAddress?.ToString() ?? "socket");
            }
        }
    }
}

using System.Diagnostics;
using Grpc.Core;
using MixEngine.Service.Access;

namespace MixEngine.Service.Telemetry;

/// <summary>What is known of one request while it is answered, and said of it when it is over.</summary>
internal sealed class CallRecord
{
    /// <summary>When it arrived, by <see cref="Stopwatch"/>.</summary>
    public long Begun { get; } = Stopwatch.GetTimestamp();

    /// <summary>How it ended; null: nobody said.</summary>
    public StatusCode? Status { get; set; }

    /// <summary>Who asks.</summary>
    public Caller Caller { get; set; } = Caller.AtHome;

    /// <summary>The record of a request; null before it is kept.</summary>
    public static CallRecord? Of(HttpContext context) => context.Features.Get<CallRecord>();

    /// <summary>Begins the record of a request.</summary>
    public static CallRecord Begin(HttpContext context)
    {
        var record = new CallRecord();
        context.Features.Set(record);
        return record;
    }

    /// <summary>Notes how a request ended. What is said last counts.</summary>
    public static void Ended(HttpContext context, StatusCode status)
    {
        if (Of(context) is { } record)
        {
            record.Status = status;
        }
    }

    /// <summary>Answers a request, and records it when it is over.</summary>
    public static async Task KeepAsync(HttpContext context, RequestDelegate next, ILogger audit)
    {
        var record = Begin(context);
        if (RpcName.Of(context) is not { } method)
        {
            await next(context);
            return;
        }

        try
        {
            await next(context);
        }
        finally
        {
            var (status, took) = (record.Status ?? StatusCode.Unknown, Stopwatch.GetElapsedTime(record.Begun));
            Measures.Called(method, status, took);

            // At home nobody needs a line for each call of their own.
            var caller = record.Caller;
            if (caller.Key is not null || status == StatusCode.Unauthenticated)
            {
                Log.Asked(audit, caller.Key ?? "none", caller.Key is null ? "nobody" : caller.Owner.Name, method, status, took.TotalMilliseconds, context.Connection.RemoteIpAddress?.ToString() ?? "socket");
            }
        }
    }
}

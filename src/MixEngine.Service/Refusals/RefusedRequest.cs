using System.Globalization;
using Google.Protobuf;
using Grpc.Core;
using MixEngine.Service.Json;
using MixEngine.Service.Telemetry;

namespace MixEngine.Service.Refusals;

/// <summary>Answers a request that never reaches a call, in the language in which it was asked.</summary>
internal static class RefusedRequest
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(1);

    /// <summary>Whether it was asked in gRPC; else in JSON.</summary>
    public static bool IsGrpc(HttpContext context) => context.Request.ContentType?.StartsWith("application/grpc", StringComparison.OrdinalIgnoreCase) == true;

    /// <summary>Answers with a refusal.</summary>
    /// <param name="context">The request.</param>
    /// <param name="httpStatus">The status of an answer in JSON.</param>
    /// <param name="status">Why.</param>
    public static async Task AnswerAsync(HttpContext context, int httpStatus, Google.Rpc.Status status)
    {
        if (!IsGrpc(context))
        {
            await JsonAnswer.WriteAsync(context, httpStatus, status);
            return;
        }

        // A response without a message: its status stands in the headers.
        CallRecord.Ended(context, (StatusCode)status.Code);
        context.Response.ContentType = "application/grpc";
        context.Response.Headers["grpc-status"] = status.Code.ToString(CultureInfo.InvariantCulture);
        context.Response.Headers["grpc-message"] = Uri.EscapeDataString(status.Message).Replace("%20", " ", StringComparison.Ordinal);
        context.Response.Headers["grpc-status-details-bin"] = Convert.ToBase64String(status.ToByteArray()).TrimEnd('=');
        await context.Response.CompleteAsync();
        await HearOutAsync(context);
    }

    // A stream that is cut off while its caller still sends counts as open for seconds; a connection has room for a hundred.
    private static async Task HearOutAsync(HttpContext context)
    {
        using var patience = CancellationTokenSource.CreateLinkedTokenSource(context.RequestAborted);
        patience.CancelAfter(Patience);
        try
        {
            for (var isHeard = false; !isHeard;)
            {
                var read = await context.Request.BodyReader.ReadAsync(patience.Token);
                context.Request.BodyReader.AdvanceTo(read.Buffer.End);
                isHeard = read.IsCompleted;
            }
        }
        catch (Exception fault) when (fault is OperationCanceledException or IOException)
        {
            // It went away, or takes too long.
        }
    }
}

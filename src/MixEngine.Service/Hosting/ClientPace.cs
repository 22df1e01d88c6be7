using System.IO.Pipelines;
using Grpc.AspNetCore.Server;
using Grpc.Core;
using Microsoft.AspNetCore.Server.Kestrel.Core.Features;

namespace MixEngine.Service.Hosting;

/// <summary>How slowly a client may ask: whoever streams may pause for as long as it is alive, which pings find out, and end its stream after it has its answer.</summary>
internal static class ClientPace
{
    // How long a stream that was answered may stay open on its client's side. Of the hundred that one connection may have open no more are then reset within Kestrel's five seconds than it lets pass,
    // even where none of them is ever ended.
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(6);

    /// <summary>
    /// Sets the pace of one request, before anything of it is read: Kestrel's watch on a body that has begun cannot be called off, and takes the whole connection
    /// from a client that sends nothing for some seconds.
    /// </summary>
    /// <param name="context">The request.</param>
    /// <param name="next">Answers it.</param>
    /// <param name="leaving">Tells that the service ends.</param>
    public static Task SetAsync(HttpContext context, RequestDelegate next, CancellationToken leaving)
    {
        if (context.GetEndpoint()?.Metadata.GetMetadata<GrpcMethodMetadata>()?.Method.Type is not (MethodType.ClientStreaming or MethodType.DuplexStreaming))
        {
            return next(context);
        }

        if (context.Features.Get<IHttpMinRequestBodyDataRateFeature>() is { } asking)
        {
            asking.MinDataRate = null;
        }

        return AnswerThenReadToEndAsync(context, next, leaving);
    }

    // Where a stream is answered before its client has ended it, Kestrel resets it, and refuses the calls of who has it do so some two hundred times within five seconds. So the answer is ended first,
    // which has the client end the stream from its side, and that is waited for.
    private static async Task AnswerThenReadToEndAsync(HttpContext context, RequestDelegate next, CancellationToken leaving)
    {
        await next(context);
        using var patience = CancellationTokenSource.CreateLinkedTokenSource(context.RequestAborted, leaving);
        patience.CancelAfter(Patience);
        try
        {
            await context.Response.CompleteAsync();
            for (var read = default(ReadResult); !read.IsCompleted; context.Request.BodyReader.AdvanceTo(read.Buffer.End))
            {
                read = await context.Request.BodyReader.ReadAsync(patience.Token);
            }
        }
        catch (Exception fault) when (fault is OperationCanceledException or IOException)
        {
            // It broke off, or says nothing: there is nothing left to be done for it.
        }
    }
}

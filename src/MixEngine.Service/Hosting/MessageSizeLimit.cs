using System.Buffers;
using System.Buffers.Binary;
using Grpc.Core;
using MixEngine.Service.Refusals;

namespace MixEngine.Service.Hosting;

/// <summary>Refuses a request that is too large by its size and the limit, before it is read. The frameworks would name neither.</summary>
internal static class MessageSizeLimit
{
    /// <summary>Most bytes of one message: a table of 16 MiB, and what stands around it.</summary>
    public const int MostMessageBytes = (16 << 20) + (64 << 10);

    /// <summary>Most bytes of a JSON body: the same, where bytes are written as base64.</summary>
    public const int MostBodyBytes = 24 << 20;

    // One byte that says whether it is compressed, and four of length [gRPC over HTTP2].
    private const int GrpcPrefixBytes = 5;

    /// <summary>Answers a request that is small enough.</summary>
    public static async Task CheckAsync(HttpContext context, RequestDelegate next)
    {
        var isGrpc = RefusedRequest.IsGrpc(context);
        var (bytes, most) = isGrpc
            ? (await AnnouncedAsync(context), MostMessageBytes)
            : (context.Request.ContentLength ?? 0, MostBodyBytes);
        if (bytes <= most)
        {
            await next(context);
            return;
        }

        await RefusedRequest.AnswerAsync(context, StatusCodes.Status413PayloadTooLarge, TooLarge($"{bytes} bytes").ToStatus());
    }

    /// <summary>The refusal of a request of this size.</summary>
    public static Refusal TooLarge(string size) => new(
        StatusCode.ResourceExhausted, "content", $"The request has {size}; at most 16 MiB and what stands around a file of that size are read. Split the table.");

    // The length that stands before the first message; looked at and left in place.
    private static async Task<long> AnnouncedAsync(HttpContext context)
    {
        while (true)
        {
            var read = await context.Request.BodyReader.ReadAsync(context.RequestAborted);
            if (read.Buffer.Length >= GrpcPrefixBytes)
            {
                var prefix = read.Buffer.Slice(0, GrpcPrefixBytes).ToArray();
                context.Request.BodyReader.AdvanceTo(read.Buffer.Start);
                return BinaryPrimitives.ReadUInt32BigEndian(prefix.AsSpan(1));
            }

            context.Request.BodyReader.AdvanceTo(read.Buffer.Start, read.Buffer.End);
            if (read.IsCompleted)
            {
                return 0;
            }
        }
    }
}

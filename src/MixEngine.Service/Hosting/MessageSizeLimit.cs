using System.Buffers;
using System.Buffers.Binary;
using System.IO.Pipelines;
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
    public static Task CheckAsync(HttpContext context, RequestDelegate next)
    {
        if (!RefusedRequest.IsGrpc(context))
        {
            return AnswerAsync(context, next, context.Request.ContentLength ?? 0, MostBodyBytes);
        }

        // Most messages are here already with their request.
        return context.Request.BodyReader.TryRead(out var read) && Announced(context, read) is { } bytes
            ? AnswerAsync(context, next, bytes, MostMessageBytes)
            : AnswerLaterAsync(context, next);
    }

    private static Task AnswerAsync(HttpContext context, RequestDelegate next, long bytes, long most) => bytes <= most
        ? next(context)
        : RefusedRequest.AnswerAsync(context, StatusCodes.Status413PayloadTooLarge, TooLarge($"{bytes} bytes").ToStatus());

    private static async Task AnswerLaterAsync(HttpContext context, RequestDelegate next)
    {
        long? bytes;
        do
        {
            bytes = Announced(context, await context.Request.BodyReader.ReadAsync(context.RequestAborted));
        }
        while (bytes is null);
        await AnswerAsync(context, next, bytes.Value, MostMessageBytes);
    }

    /// <summary>The refusal of a request of this size.</summary>
    public static Refusal TooLarge(string size) => new(
        StatusCode.ResourceExhausted, "content", $"The request has {size}; at most 16 MiB and what stands around a file of that size are read. Split the table.");

    // The length that stands before the first message; looked at and left in place. Null: it has not come yet.
    private static long? Announced(HttpContext context, ReadResult read)
    {
        if (read.Buffer.Length >= GrpcPrefixBytes)
        {
            Span<byte> prefix = stackalloc byte[GrpcPrefixBytes];
            read.Buffer.Slice(0, GrpcPrefixBytes).CopyTo(prefix);
            context.Request.BodyReader.AdvanceTo(read.Buffer.Start);
            return BinaryPrimitives.ReadUInt32BigEndian(prefix[1..]);
        }

        context.Request.BodyReader.AdvanceTo(read.Buffer.Start, read.Buffer.End);
        return read.IsCompleted ? 0 : null;
    }
}

using Grpc.Core;

namespace MixEngine.Service.Calls;

/// <summary>Bytes that are no message of the call's type: the caller's mistake, and told as such.</summary>
/// <remarks>
/// The framework reads the message of a unary call before any interceptor runs, and calls what it cannot read an unknown fault. Whatever else goes wrong is turned into a
/// status by <see cref="ErrorInterceptor"/>, so that this one answer is left.
/// </remarks>
internal static class UnreadableMessage
{
    private const string StatusHeader = "grpc-status";
    private const string MessageHeader = "grpc-message";

    /// <summary>What is said to the caller.</summary>
    public const string Words = "The request is not a message of this call's type, or it was cut off on its way. Build it from protos/mixengine/v1.";

    /// <summary>Answers, and corrects the status where the message could not be read.</summary>
    public static Task CheckAsync(HttpContext context, RequestDelegate next)
    {
        // Most calls are answered at once.
        var answering = next(context);
        if (!answering.IsCompletedSuccessfully)
        {
            return CorrectAsync(context, answering);
        }

        Correct(context);
        return Task.CompletedTask;
    }

    private static async Task CorrectAsync(HttpContext context, Task answering)
    {
        await answering;
        Correct(context);
    }

    private static void Correct(HttpContext context)
    {
        var headers = context.Response.Headers;
        if (!context.Response.HasStarted && headers[StatusHeader] == ((int)StatusCode.Unknown).ToString(System.Globalization.CultureInfo.InvariantCulture))
        {
            headers[StatusHeader] = ((int)StatusCode.InvalidArgument).ToString(System.Globalization.CultureInfo.InvariantCulture);
            headers[MessageHeader] = Words;
        }
    }
}

using System.Text.Json;
using System.Text.Unicode;
using Google.Api;
using Google.Protobuf.Reflection;
using Grpc.Core;
using Microsoft.AspNetCore.Grpc.JsonTranscoding;
using MixEngine.Service.Hosting;
using MixEngine.Service.Refusals;

namespace MixEngine.Service.Json;

/// <summary>Checks what stands in a JSON request before it becomes a message, so that a refusal can name the field, the line and the value.</summary>
internal static class JsonRequest
{
    // The body's field when the whole request stands in the body.
    private const string WholeRequest = "*";

    /// <summary>Answers a request that is what its call expects.</summary>
    /// <param name="context">The request.</param>
    /// <param name="next">Answers it.</param>
    /// <param name="call">The call to which its endpoint leads.</param>
    public static async Task CheckAsync(HttpContext context, RequestDelegate next, GrpcJsonTranscodingMetadata call)
    {
        try
        {
            var violations = new Violations();
            foreach (var (name, value) in context.Request.Query)
            {
                FieldCheck.CheckQuery(name, value.ToString(), call.MethodDescriptor.InputType, violations);
            }

            if (call.HttpRule.Body.Length > 0 && context.Request.HasJsonContentType())
            {
                await CheckBodyAsync(context, MessageIn(call.HttpRule, call.MethodDescriptor.InputType), violations);
            }

            violations.ThrowIfAny();
        }
        catch (Refusal refusal)
        {
            await JsonAnswer.WriteAsync(context, StatusCodes.Status400BadRequest, refusal);
            return;
        }
        catch (BadHttpRequestException fault) when (fault.StatusCode == StatusCodes.Status413PayloadTooLarge)
        {
            await JsonAnswer.WriteAsync(context, fault.StatusCode, MessageSizeLimit.TooLarge($"more than {MessageSizeLimit.MostBodyBytes} bytes"));
            return;
        }

        await next(context);
    }

    private static MessageDescriptor MessageIn(HttpRule rule, MessageDescriptor request) =>
        rule.Body == WholeRequest ? request : request.FindFieldByName(rule.Body).MessageType;

    private static async Task CheckBodyAsync(HttpContext context, MessageDescriptor message, Violations violations)
    {
        // Read once here and once more by whoever makes the message of it.
        var body = new MemoryStream();
        await context.Request.Body.CopyToAsync(body, context.RequestAborted);
        body.Position = 0;
        context.Request.Body = body;
        if (!Utf8.IsValid(body.GetBuffer().AsSpan(0, (int)body.Length)))
        {
            throw new Refusal(StatusCode.InvalidArgument, "body", "It is not UTF-8 text, as JSON must be. Save or send it in that encoding.");
        }

        try
        {
            using var json = JsonDocument.Parse(body.GetBuffer().AsMemory(0, (int)body.Length));
            FieldCheck.Check(json.RootElement, message, "", violations);
        }
        catch (JsonException fault)
        {
            throw new Refusal(
                StatusCode.InvalidArgument, "body", $"It is not JSON from line {fault.LineNumber + 1}, byte {fault.BytePositionInLine + 1} on. Send an object in braces, such as the answers are.");
        }
        catch (InvalidOperationException fault) when (fault.TargetSite?.DeclaringType?.Assembly == typeof(JsonDocument).Assembly)
        {
            // Sound JSON by its grammar, and yet no text.
            throw new Refusal(StatusCode.InvalidArgument, "body", "A text in it has half a character: an escape such as \\ud83d without the other half after it. Write the character itself.");
        }
    }
}

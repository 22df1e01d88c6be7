using System.Net.Http.Headers;
using System.Text;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Google.Api;
using Google.Protobuf;
using Google.Protobuf.Reflection;
using Grpc.Core;
using MixEngine.Service.Json;

namespace MixEngine.Service.Tests.Access;

/// <summary>Every call as HTTP and JSON have it: verbs, paths, bodies and queries made from the google.api.http rules of its descriptor.</summary>
internal static partial class EveryPath
{
    // The body's field when all that the path does not take stands in the body.
    private const string WholeRequest = "*";

    private static readonly JsonFormatter Writer = new(JsonFormatter.Settings.Default.WithTypeRegistry(JsonAnswer.Details).WithPreserveProtoFieldNames(true));
    private static readonly JsonParser Reader = new(JsonParser.Settings.Default.WithTypeRegistry(JsonAnswer.Details));

    /// <summary>The rule of a call and its further bindings; none where only gRPC has the call.</summary>
    public static IReadOnlyList<HttpRule> Of(MethodDescriptor rpc) =>
        rpc.GetOptions()?.GetExtension(AnnotationsExtensions.Http) is { } rule ? [rule, .. rule.AdditionalBindings] : [];

    /// <summary>"GET /v1/shelves/{shelf}/paints".</summary>
    public static string NameOf(HttpRule rule) => $"{VerbOf(rule)} {TemplateOf(rule)}";

    /// <summary>The request that says the same; null where a field is empty that makes the path or the body.</summary>
    /// <exception cref="InvalidOperationException">Something of it has no place in a query.</exception>
    public static HttpRequestMessage? RequestOf(HttpRule rule, IMessage message)
    {
        var left = JsonNode.Parse(Writer.Format(message))!.AsObject();

        // First the path takes its fields, then the body its own, and the query what is left.
        var isWhole = true;
        var path = PathField().Replace(TemplateOf(rule), field =>
        {
            var segments = (Take(left, field.Groups["name"].Value) ?? "").Split(field.Groups["segments"].Value.Contains('/') || field.Groups["segments"].Value == "**" ? '/' : '\0');
            isWhole &= segments.All(segment => segment.Length > 0);
            return string.Join('/', segments.Select(Uri.EscapeDataString));
        });
        if (!isWhole)
        {
            return null;
        }

        JsonNode? body = null;
        if (rule.Body == WholeRequest)
        {
            (body, left) = (left, []);
        }
        else if (rule.Body.Length > 0)
        {
            body = left[rule.Body];
            left.Remove(rule.Body);
            if (body is null)
            {
                return null;
            }
        }

        var query = string.Join('&', Query(left, ""));
        return new HttpRequestMessage(VerbOf(rule), query.Length == 0 ? path : $"{path}?{query}")
        {
            Content = body is null ? null : new StringContent(body.ToJsonString(), Encoding.UTF8, "application/json"),
        };
    }

    /// <summary>Asks, and waits for all that comes back: one message, or one in each line.</summary>
    /// <param name="http">Where.</param>
    /// <param name="rpc">What.</param>
    /// <param name="request">As <see cref="RequestOf"/> makes it; is disposed of.</param>
    /// <param name="key">The caller's key; null: none.</param>
    public static async Task<EveryRpc.Answer> CallAsync(HttpClient http, MethodDescriptor rpc, HttpRequestMessage request, string? key)
    {
        using var asked = request;
        asked.Headers.Authorization = key is null ? null : new AuthenticationHeaderValue("Bearer", key);
        (asked.Version, asked.VersionPolicy) = (http.DefaultRequestVersion, http.DefaultVersionPolicy);
        using var answer = await http.SendAsync(asked, TestContext.Current.CancellationToken);
        var text = await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        if (!answer.IsSuccessStatusCode)
        {
            return new EveryRpc.Answer(CodeIn(text), [], text);
        }

        List<IMessage> messages = [];
        foreach (var line in rpc.IsServerStreaming ? text.Split('\n', StringSplitOptions.RemoveEmptyEntries) : [text])
        {
            try
            {
                messages.Add(Reader.Parse(line, rpc.OutputType));
            }
            catch (InvalidProtocolBufferException) when (rpc.IsServerStreaming)
            {
                // A stream that has begun ends with its refusal.
                return new EveryRpc.Answer(CodeIn(line), messages, line);
            }
        }

        return new EveryRpc.Answer(StatusCode.OK, messages, "");
    }

    private static StatusCode CodeIn(string refusal)
    {
        try
        {
            return (StatusCode)Reader.Parse<Google.Rpc.Status>(refusal).Code;
        }
        catch (IOException fault)
        {
            throw new InvalidDataException($"This is no google.rpc.Status in JSON: {refusal}", fault);
        }
    }

    private static HttpMethod VerbOf(HttpRule rule) => rule.PatternCase == HttpRule.PatternOneofCase.Custom ? new(rule.Custom.Kind) : HttpMethod.Parse(rule.PatternCase.ToString().ToUpperInvariant());

    private static string TemplateOf(HttpRule rule) => rule.PatternCase == HttpRule.PatternOneofCase.Custom ? rule.Custom.Path : rule.Get + rule.Put + rule.Post + rule.Delete + rule.Patch;

    // The value at "swatch.id", which is not left there.
    private static string? Take(JsonObject from, string path)
    {
        var steps = path.Split('.');
        foreach (var step in steps[..^1])
        {
            if (from[step] is not JsonObject within)
            {
                return null;
            }

            from = within;
        }

        var value = from[steps[^1]]?.AsValue().ToString();
        from.Remove(steps[^1]);
        return value;
    }

    private static IEnumerable<string> Query(JsonNode value, string name) => value switch
    {
        JsonObject fields => fields.SelectMany(field => Query(field.Value!, name.Length == 0 ? field.Key : $"{name}.{field.Key}")),
        JsonArray list when list.All(element => element is JsonValue) => list.SelectMany(element => Query(element!, name)),
        JsonValue single => [$"{Uri.EscapeDataString(name)}={Uri.EscapeDataString(single.ToString())}"],
        _ => throw new InvalidOperationException($"{name}: a list of messages has no place in a query. Give the call a body."),
    };

    [GeneratedRegex(@"\{(?<name>[^=}]+)(=(?<segments>[^}]+))?\}")]
    private static partial Regex PathField();
}

using System.Collections.Concurrent;
using System.Text;
using System.Text.RegularExpressions;
using Google.Protobuf;
using Google.Protobuf.Reflection;
using Google.Rpc;
using Grpc.Core;
using Microsoft.Extensions.Logging;
using MixEngine.Service.Tests;

namespace MixEngine.Fuzzing.Tests;

/// <summary>Whatever is asked of the service, it answers soundly or refuses; it never fails, never hangs, and never says a number that is none.</summary>
public sealed partial class CallTests : IAsyncLifetime
{
    private static readonly StatusCode[] Failures = [StatusCode.Internal, StatusCode.Unknown, StatusCode.DataLoss, StatusCode.Unavailable];
    private static readonly JsonParser Reader = new(JsonParser.Settings.Default.WithTypeRegistry(TypeRegistry.FromFiles(ErrorDetailsReflection.Descriptor)));
    private readonly TestService _service = new();

    public ValueTask InitializeAsync()
    {
        // The framework logs what it cannot read as an error; the caller is told that it is theirs.
        _service.Logs.Declare(entry => entry.Exception is InvalidProtocolBufferException);

        // As it does when a caller gives up while the request is still on its way.
        _service.Logs.Declare(entry => entry is { Category: "Grpc.AspNetCore.Server.ServerCallHandler", Exception: IOException { Message: "The client reset the request stream." } });
        return _service.InitializeAsync();
    }

    public ValueTask DisposeAsync() => _service.DisposeAsync();

    [Fact]
    public Task Any_message_is_answered_or_refused() => Try("grpc", Amount.Of(1500, 0.06), async random =>
    {
        var call = Surface.Calls[random.Next(Surface.Calls.Count)];
        return await Ask(call, [.. Messages(random, call).Select(message => message.ToByteArray())]);
    });

    [Fact]
    public Task Any_bytes_are_answered_or_refused() => Try("grpc-bytes", Amount.Of(800, 0.03), async random =>
    {
        var call = Surface.Calls[random.Next(Surface.Calls.Count)];
        return await Ask(call, [.. Messages(random, call).Select(message => random.Next(4) == 0 ? RandomBytes(random) : Mutation.Of(random, [message.ToByteArray()]))]);
    });

    [Fact]
    public Task Any_JSON_is_answered_or_refused() => Try("json", Amount.Of(1500, 0.06), async random =>
    {
        var (call, verb, path) = Surface.Paths[random.Next(Surface.Paths.Count)];
        var message = RandomMessage.Of(random, call.InputType);
        var json = Encoding.UTF8.GetBytes(JsonFormatter.Default.Format(message));
        var filled = PathFields().Replace(path, field => Uri.EscapeDataString(random.Next(6) == 0 ? Mutation.Token(random) : TextIn(message, field.Groups[1].Value)));
        using var request = new HttpRequestMessage(verb, filled);
        if (verb == HttpMethod.Post)
        {
            request.Content = new ByteArrayContent(random.Next(2) == 0 ? json : Mutation.Of(random, [json]));
            request.Content.Headers.TryAddWithoutValidation("Content-Type", random.Next(20) == 0 ? "text/plain" : "application/json");
        }

        request.Headers.TryAddWithoutValidation("grpc-timeout", "2S");
        using var answer = await _service.Http.SendAsync(request);
        var text = await answer.Content.ReadAsStringAsync();
        Assert.True((int)answer.StatusCode is < 500 or 501 or 504, $"{verb} {filled}: {(int)answer.StatusCode} {text}\n{Encoding.UTF8.GetString(json)}");
        if (answer.IsSuccessStatusCode)
        {
            // A stream is a line for each message.
            foreach (var line in call.IsServerStreaming ? text.Split('\n', StringSplitOptions.RemoveEmptyEntries) : [text])
            {
                Assert.Null(Sound.FaultIn(Read(line, call)));
            }
        }

        Assert.DoesNotContain("   at ", text);
        return $"{(int)answer.StatusCode}";
    });

    private static IEnumerable<IMessage> Messages(Random random, MethodDescriptor call) =>
        Enumerable.Range(0, call.IsClientStreaming ? random.Next(1, 5) : 1).Select(_ => RandomMessage.Of(random, call.InputType));

    private async Task<string> Ask(MethodDescriptor call, byte[][] requests)
    {
        var invoker = _service.Channel.CreateCallInvoker();
        var options = new CallOptions(deadline: DateTime.UtcNow.AddSeconds(2));
        var raw = Surface.Raw(call);
        try
        {
            switch (raw.Type)
            {
                case MethodType.Unary:
                    using (var unary = invoker.AsyncUnaryCall(raw, null, options, requests[0]))
                    {
                        AssertSound(call, await unary.ResponseAsync);
                    }

                    break;
                case MethodType.ServerStreaming:
                    using (var stream = invoker.AsyncServerStreamingCall(raw, null, options, requests[0]))
                    {
                        await ReadAll(call, stream.ResponseStream);
                    }

                    break;
                default:
                    using (var duplex = invoker.AsyncDuplexStreamingCall(raw, null, options))
                    {
                        foreach (var request in requests)
                        {
                            await duplex.RequestStream.WriteAsync(request);
                        }

                        await duplex.RequestStream.CompleteAsync();
                        await ReadAll(call, duplex.ResponseStream);
                    }

                    break;
            }

            return "answered";
        }
        catch (RpcException refusal) when (!Failures.Contains(refusal.StatusCode))
        {
            Assert.DoesNotContain("Exception", refusal.Status.Detail);
            return refusal.StatusCode.ToString();
        }
        catch (Exception fault) when (fault is RpcException or InvalidOperationException)
        {
            throw new InvalidOperationException($"{call.FullName}: {fault.Message}\n{string.Join('\n', requests.Select(Convert.ToBase64String))}", fault);
        }
    }

    private static async Task ReadAll(MethodDescriptor call, IAsyncStreamReader<byte[]> stream)
    {
        while (await stream.MoveNext(default))
        {
            AssertSound(call, stream.Current);
        }
    }

    private static void AssertSound(MethodDescriptor call, byte[] answer) => Assert.Null(Sound.FaultIn(call.OutputType.Parser.ParseFrom(answer)));

    // Text in the place of a path's field may lead to another call.
    private static IMessage Read(string json, MethodDescriptor asked)
    {
        foreach (var type in Surface.Paths.Select(path => path.Call.OutputType).Prepend(asked.OutputType))
        {
            try
            {
                return Reader.Parse(json, type);
            }
            catch (InvalidProtocolBufferException)
            {
            }
        }

        throw new InvalidDataException($"{asked.FullName}: this is no answer of any call: {json}");
    }

    private static byte[] RandomBytes(Random random)
    {
        var bytes = new byte[random.Next(200)];
        random.NextBytes(bytes);
        return bytes;
    }

    private static string TextIn(IMessage message, string field) =>
        message.Descriptor.FindFieldByName(field) is { } descriptor ? Convert.ToString(descriptor.Accessor.GetValue(message), System.Globalization.CultureInfo.InvariantCulture) ?? "" : "home";

    [GeneratedRegex(@"\{(\w+)[^}]*\}")]
    private static partial Regex PathFields();

    // A server that cannot keep up drops connections whose requests come too slowly; a call that fails by itself fails again.
    private static async Task<string> Again(Func<Task<string>> ask)
    {
        try
        {
            return await ask();
        }
        catch (InvalidOperationException fault) when (fault.InnerException is RpcException { StatusCode: StatusCode.Unavailable })
        {
            return await ask();
        }
    }

    private async Task Try(string surface, int inputs, Func<Random, Task<string>> one)
    {
        var outcomes = new ConcurrentDictionary<string, int>();
        await Parallel.ForAsync(0, inputs, new ParallelOptions { MaxDegreeOfParallelism = 8 }, async (seed, cancel) =>
        {
            try
            {
                // Some calls take paints away.
                if (seed % 250 == 249)
                {
                    _service.Import("home", Coast.Table);
                }

                var outcome = await Again(() => one(new Random(seed)).WaitAsync(TimeSpan.FromMinutes(1), cancel));
                outcomes.AddOrUpdate(outcome, 1, (_, n) => n + 1);
            }
            catch (Exception fault) when (!cancel.IsCancellationRequested)
            {
                var logged = _service.Logs.Entries.LastOrDefault(entry => entry.Level >= LogLevel.Error);
                throw new InvalidOperationException($"{surface}, seed {seed}: {fault.GetType().Name}: {fault.Message}\n{logged?.Message}\n{logged?.Exception}", fault);
            }
        });
        Amount.Report(surface, inputs, outcomes);
    }
}

using System.Reflection;
using System.Text;
using Google.Protobuf;
using Google.Protobuf.Reflection;
using Grpc.Core;
using MixEngine.V1;

namespace MixEngine.Service.Tests.Access;

/// <summary>Every call of the contract, found in its descriptors, so that a new one is tried by itself.</summary>
internal static class EveryRpc
{
    private static readonly Marshaller<byte[]> Bytes = Marshallers.Create(bytes => bytes, bytes => bytes);

    public static IReadOnlyList<MethodDescriptor> All { get; } =
    [
        .. typeof(Mixing).Assembly.GetTypes()
            .Where(type => type.Namespace == typeof(Mixing).Namespace && type.Name.EndsWith("Reflection", StringComparison.Ordinal))
            .Select(type => type.GetProperty("Descriptor", BindingFlags.Public | BindingFlags.Static)?.GetValue(null))
            .OfType<FileDescriptor>()
            .SelectMany(file => file.Services)
            .SelectMany(service => service.Methods)
            // What takes something away comes last.
            .OrderBy(rpc => rpc.Name.StartsWith("Discard", StringComparison.Ordinal) || rpc.Name.StartsWith("Remove", StringComparison.Ordinal))
            .ThenBy(NameOf, StringComparer.Ordinal),
    ];

    /// <summary>"mixengine.v1.Mixing/Predict".</summary>
    public static string NameOf(MethodDescriptor rpc) => $"{rpc.Service.FullName}/{rpc.Name}";

    /// <summary>Calls it, and waits for all that comes back.</summary>
    /// <param name="invoker">Where.</param>
    /// <param name="rpc">What.</param>
    /// <param name="requests">One message, or those of a stream.</param>
    /// <param name="key">The caller's key; null: none.</param>
    public static async Task<Answer> CallAsync(CallInvoker invoker, MethodDescriptor rpc, IEnumerable<IMessage> requests, string? key)
    {
        // On the wire a unary call is a stream of one message each way.
        var method = new Method<byte[], byte[]>(MethodType.DuplexStreaming, rpc.Service.FullName, rpc.Name, Bytes, Bytes);
        var headers = new Metadata();
        if (key is not null)
        {
            headers.Add("authorization", "Bearer " + key);
        }

        using var call = invoker.AsyncDuplexStreamingCall(method, null, new CallOptions(headers, DateTime.UtcNow.AddMinutes(2), TestContext.Current.CancellationToken));
        List<IMessage> messages = [];
        try
        {
            var sending = SendAsync(call, requests);
            while (await call.ResponseStream.MoveNext(TestContext.Current.CancellationToken))
            {
                messages.Add(rpc.OutputType.Parser.ParseFrom(call.ResponseStream.Current));
            }

            await sending;
            return new Answer(StatusCode.OK, messages, "");
        }
        catch (RpcException fault)
        {
            var trailers = string.Concat(fault.Trailers.Where(entry => entry.IsBinary).Select(entry => Encoding.Latin1.GetString(entry.ValueBytes)));
            return new Answer(fault.StatusCode, messages, fault.Status.Detail + trailers);
        }
    }

    private static async Task SendAsync(AsyncDuplexStreamingCall<byte[], byte[]> call, IEnumerable<IMessage> requests)
    {
        try
        {
            foreach (var request in requests)
            {
                await call.RequestStream.WriteAsync(request.ToByteArray());
            }

            await call.RequestStream.CompleteAsync();
        }
        catch (Exception fault) when (fault is RpcException or InvalidOperationException)
        {
            // It was refused before all was sent: the answer says why.
        }
    }

    /// <summary>What came back.</summary>
    /// <param name="Status">How it ended.</param>
    /// <param name="Messages">Every message.</param>
    /// <param name="Words">Of a refusal, its details included.</param>
    internal sealed record Answer(StatusCode Status, IReadOnlyList<IMessage> Messages, string Words)
    {
        /// <summary>All of it, as one text in which to look for something.</summary>
        public override string ToString() => $"{Status} {Words} {string.Join('\n', Messages.Select(message => Encoding.Latin1.GetString(message.ToByteArray())))}";
    }
}

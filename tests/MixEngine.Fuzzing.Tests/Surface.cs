using System.Reflection;
using Google.Api;
using Google.Protobuf.Reflection;
using Grpc.Core;

namespace MixEngine.Fuzzing.Tests;

/// <summary>Every call that the contract has, found in its descriptors: a new one is fuzzed without being named here.</summary>
internal static class Surface
{
    /// <summary>All calls.</summary>
    public static IReadOnlyList<MethodDescriptor> Calls { get; } =
    [
        .. typeof(V1.MixingReflection).Assembly.GetTypes()
            .Where(type => type.Namespace == typeof(V1.MixingReflection).Namespace && type.Name.EndsWith("Reflection", StringComparison.Ordinal))
            .Select(type => type.GetProperty("Descriptor", BindingFlags.Public | BindingFlags.Static)!.GetValue(null)).Cast<FileDescriptor>()
            .SelectMany(file => file.Services).SelectMany(service => service.Methods).OrderBy(method => method.FullName, StringComparer.Ordinal),
    ];

    /// <summary>The calls that JSON has, with their verbs and paths.</summary>
    public static IReadOnlyList<(MethodDescriptor Call, HttpMethod Verb, string Path)> Paths { get; } =
    [
        .. from call in Calls
           let rule = call.GetOptions()?.GetExtension(AnnotationsExtensions.Http)
           where rule is not null
           from one in rule.AdditionalBindings.Prepend(rule)
           select (call, VerbOf(one), one.Post + one.Get + one.Delete + one.Put + one.Patch),
    ];

    /// <summary>The same call with bytes as they stand, sound or not.</summary>
    public static Method<byte[], byte[]> Raw(MethodDescriptor call) => new(
        (call.IsClientStreaming, call.IsServerStreaming) switch
        {
            (true, true) => MethodType.DuplexStreaming,
            (true, false) => MethodType.ClientStreaming,
            (false, true) => MethodType.ServerStreaming,
            _ => MethodType.Unary,
        },
        call.Service.FullName, call.Name, Marshallers.Create(bytes => bytes, bytes => bytes), Marshallers.Create(bytes => bytes, bytes => bytes));

    private static HttpMethod VerbOf(HttpRule rule) => rule.PatternCase switch
    {
        HttpRule.PatternOneofCase.Get => HttpMethod.Get,
        HttpRule.PatternOneofCase.Delete => HttpMethod.Delete,
        HttpRule.PatternOneofCase.Put => HttpMethod.Put,
        HttpRule.PatternOneofCase.Patch => HttpMethod.Patch,
        _ => HttpMethod.Post,
    };
}

using Google.Protobuf.Reflection;
using MixEngine.V1;

namespace MixEngine.Client;

/// <summary>The calls that may be repeated where no answer came, as the protos say of each.</summary>
internal static class RepeatableCalls
{
    public static IReadOnlyList<MethodDescriptor> All { get; } =
    [
        .. new[] { BatchReflection.Descriptor, LayeringReflection.Descriptor, MixingReflection.Descriptor, SchemeReflection.Descriptor, ShelfReflection.Descriptor, SwatchReflection.Descriptor }
            .SelectMany(file => file.Services)
            .SelectMany(service => service.Methods)
            .Where(method => method.GetOptions()?.IdempotencyLevel is MethodOptions.Types.IdempotencyLevel.NoSideEffects or MethodOptions.Types.IdempotencyLevel.Idempotent),
    ];
}

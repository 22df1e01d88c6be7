using System.Collections;
using System.Collections.Concurrent;
using System.Reflection;
using Google.Protobuf;
using Google.Protobuf.Reflection;

namespace MixEngine.Fuzzing.Tests;

/// <summary>Looks for numbers that must never come out of the engine.</summary>
internal static class Sound
{
    private static readonly ConcurrentDictionary<Type, PropertyInfo[]> Known = new();

    /// <summary>The path of a NaN, an infinity or a negative reflectance in a message; null: there is none.</summary>
    public static string? FaultIn(IMessage message, string path = "")
    {
        foreach (var field in message.Descriptor.Fields.InFieldNumberOrder())
        {
            var value = field.Accessor.GetValue(message);
            var fault = field switch
            {
                { IsMap: true } => null,
                { IsRepeated: true } => ((IList)value).Cast<object>().Select((item, i) => FaultIn(item, field, $"{path}.{field.Name}[{i}]")).FirstOrDefault(f => f is not null),
                { HasPresence: true } when !field.Accessor.HasValue(message) => null,
                _ => FaultIn(value, field, $"{path}.{field.Name}"),
            };
            if (fault is not null)
            {
                return fault;
            }
        }

        return null;
    }

    /// <summary>The path of a number that is not finite in a value of ours; null: there is none.</summary>
    public static string? FaultIn(object? value, string path = "", int depth = 0) => value switch
    {
        null or string => null,
        double number => double.IsFinite(number) ? null : $"{path} is {number}",
        float number => float.IsFinite(number) ? null : $"{path} is {number}",
        IEnumerable items => items.Cast<object?>().Select((item, i) => FaultIn(item, $"{path}[{i}]", depth + 1)).FirstOrDefault(f => f is not null),
        _ when depth > 8 || value.GetType().Namespace?.StartsWith("MixEngine", StringComparison.Ordinal) != true => null,
        _ => Known.GetOrAdd(value.GetType(), type => [.. type.GetProperties(BindingFlags.Public | BindingFlags.Instance).Where(p => p.GetIndexParameters().Length == 0 && !p.PropertyType.IsByRefLike)])
            .Select(property => FaultIn(property.GetValue(value), $"{path}.{property.Name}", depth + 1)).FirstOrDefault(f => f is not null),
    };

    private static string? FaultIn(object value, FieldDescriptor field, string path) => value switch
    {
        IMessage inner => FaultIn(inner, path),
        double number => Judge(number, field, path),
        float number => Judge(number, field, path),
        _ => null,
    };

    private static string? Judge(double number, FieldDescriptor field, string path) =>
        !double.IsFinite(number) ? $"{path} is {number}"
        : number < 0 && field.Name.Contains("reflectance", StringComparison.Ordinal) ? $"{path} is {number}, a negative reflectance"
        : null;
}

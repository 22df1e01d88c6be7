using System.Collections;
using Google.Protobuf;
using Google.Protobuf.Reflection;

namespace MixEngine.Service.Tests.Access;

/// <summary>Requests that name given things wherever a field can name them, made from a message's descriptor.</summary>
/// <param name="words">
/// What stands in a text or bytes field of that name ("shelf"), or of that name in that message ("RecipeInput.text"). A list holds them all; of single fields, neighbours take one after the other.
/// </param>
/// <param name="numbers">The same for numbers.</param>
internal sealed class GeneratedRequests(IReadOnlyDictionary<string, string[]> words, IReadOnlyDictionary<string, double[]> numbers)
{
    private const int Deepest = 4;
    private const int FewestWays = 3;
    private const string Recipe = "RecipeInput";

    /// <summary>For a stream, one message for each part; else one with every field, for each choice that it offers, one with nothing but names, and both without one field after the other; none twice.</summary>
    public IEnumerable<IReadOnlyList<IMessage>> For(MethodDescriptor rpc)
    {
        var type = rpc.InputType;
        if (rpc.IsClientStreaming)
        {
            return [[.. Enumerable.Range(0, ChoicesOf(type, Deepest)).Select(choice => Make(type, choice, 0, 0))]];
        }

        var (whole, names) = (Make(type, 0, 0, 0), Make(type, 0, Deepest, 0));
        return Enumerable.Range(0, Math.Max(ChoicesOf(type, 0), FewestWays)).Select(choice => Make(type, choice, 0, 0))
            .Append(names)
            .Concat(from message in new[] { whole, names } from field in type.Fields.InDeclarationOrder() select Without(field, message))
            .Distinct()
            .Select(message => (IReadOnlyList<IMessage>)[message]);
    }

    private static IMessage Without(FieldDescriptor field, IMessage message)
    {
        var copy = message.Descriptor.Parser.ParseFrom(message.ToByteArray());
        field.Accessor.Clear(copy);
        return copy;
    }

    // The most that it, or a message in it, offers.
    private static int ChoicesOf(MessageDescriptor type, int depth) => type.Oneofs.Where(oneof => !oneof.IsSynthetic).Select(oneof => oneof.Fields.Count)
        .Concat(type.Fields.InDeclarationOrder().Where(field => depth < Deepest && IsOurs(field)).Select(field => ChoicesOf(field.MessageType, depth + 1)))
        .Append(1).Max();

    private static bool IsOurs(FieldDescriptor field) => field.FieldType == FieldType.Message && field.MessageType.File.Package.StartsWith("mixengine", StringComparison.Ordinal);

    private IMessage Make(MessageDescriptor type, int choice, int depth, int place)
    {
        var message = type.Parser.ParseFrom([]);
        foreach (var field in type.Fields.InDeclarationOrder().Where(field => !field.IsMap && IsChosen(type, field, choice, depth)))
        {
            var values = ValuesOf(type, field, choice, depth, place + field.FieldNumber);
            if (field.IsRepeated)
            {
                var list = (IList)field.Accessor.GetValue(message);
                Array.ForEach(values, value => list.Add(value));
            }
            else if (values.Length > 0)
            {
                field.Accessor.SetValue(message, values[(place + field.FieldNumber) % values.Length]);
            }
        }

        return message;
    }

    private static bool IsChosen(MessageDescriptor type, FieldDescriptor field, int choice, int depth) =>
        field.RealContainingOneof is { } oneof ? oneof.Fields[choice % oneof.Fields.Count] == field
        // A recipe is a text or its parts.
        : type.Name == Recipe ? field.Name == (choice % 2 == 0 ? "text" : "parts")
        // What is made has no id yet.
        : field.Name != "id" || depth == 0 || choice % 2 == 0;

    private object[] ValuesOf(MessageDescriptor type, FieldDescriptor field, int choice, int depth, int place) => field.FieldType switch
    {
        FieldType.String => [.. Given(words, type, field)],
        FieldType.Bytes => [.. Given(words, type, field).Select(ByteString.CopyFromUtf8)],
        FieldType.Int64 => [.. Given(numbers, type, field).Select(number => (object)(long)number)],
        FieldType.Int32 => [.. Given(numbers, type, field).Select(number => (object)(int)number)],
        FieldType.Double => [.. Given(numbers, type, field).Select(number => (object)number)],

        // A ramp has two ends.
        FieldType.Message when depth < Deepest && IsOurs(field) => [.. Enumerable.Range(place, field.IsRepeated && field.MessageType.Name == Recipe ? 2 : 1).Select(next => Make(field.MessageType, choice, depth + 1, next))],
        _ => [],
    };

    private static T[] Given<T>(IReadOnlyDictionary<string, T[]> all, MessageDescriptor type, FieldDescriptor field) =>
        all.GetValueOrDefault($"{type.Name}.{field.Name}") ?? all.GetValueOrDefault(field.Name) ?? [];
}

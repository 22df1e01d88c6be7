using Google.Protobuf;
using Google.Protobuf.Reflection;

namespace MixEngine.Service.Tests.Access;

/// <summary>Requests that name given things wherever a field can name them, made from a message's descriptor.</summary>
/// <param name="words">What stands in a text field of that name.</param>
/// <param name="texts">What stands in the field "text" of that message.</param>
/// <param name="run">The number of a scheme run.</param>
internal sealed class GeneratedRequests(IReadOnlyDictionary<string, string> words, IReadOnlyDictionary<string, string> texts, long run)
{
    private const int Deepest = 4;

    /// <summary>For a stream, one message for each part; else one with every field, for each choice that it offers, and one with nothing but names.</summary>
    public IEnumerable<IReadOnlyList<IMessage>> For(MethodDescriptor rpc)
    {
        var choices = Math.Max(1, rpc.InputType.Oneofs.Where(oneof => !oneof.IsSynthetic).Select(oneof => oneof.Fields.Count).DefaultIfEmpty(1).Max());
        if (rpc.IsClientStreaming)
        {
            yield return [.. Enumerable.Range(0, choices).Select(choice => Make(rpc.InputType, choice, 0))];
            yield break;
        }

        for (var choice = 0; choice < Math.Max(choices, 3); choice++)
        {
            yield return [Make(rpc.InputType, choice, 0)];
        }

        yield return [Make(rpc.InputType, 0, Deepest)];
    }

    private IMessage Make(MessageDescriptor type, int choice, int depth)
    {
        var message = type.Parser.ParseFrom([]);
        foreach (var field in type.Fields.InDeclarationOrder().Where(field => !field.IsMap))
        {
            if (field.RealContainingOneof is { } oneof && oneof.Fields[choice % oneof.Fields.Count] != field)
            {
                continue;
            }

            if (ValueOf(type, field, choice, depth) is not { } value)
            {
                continue;
            }

            if (field.IsRepeated)
            {
                ((System.Collections.IList)field.Accessor.GetValue(message)).Add(value);
            }
            else
            {
                field.Accessor.SetValue(message, value);
            }
        }

        return message;
    }

    private object? ValueOf(MessageDescriptor type, FieldDescriptor field, int choice, int depth) => field.FieldType switch
    {
        FieldType.String => field.Name == "text" ? texts.GetValueOrDefault(type.Name) : words.GetValueOrDefault(field.Name),
        FieldType.Int64 when field.Name == "run" => run,
        FieldType.Double when field.Name is "parts" or "drops" => 1.0,
        FieldType.Int32 when field.Name is "steps" or "coats" => 3,
        FieldType.Bytes => ByteString.CopyFromUtf8(words[field.Name]),
        FieldType.Message when depth < Deepest && field.MessageType.File.Package.StartsWith("mixengine", StringComparison.Ordinal) => Make(field.MessageType, choice, depth + 1),
        _ => null,
    };
}

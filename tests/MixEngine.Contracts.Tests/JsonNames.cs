using System.Text;
using Google.Protobuf.Reflection;

namespace MixEngine.Contracts.Tests;

/// <summary>The names and paths of the JSON side as a page to read.</summary>
internal static class JsonNames
{
    public static string Write()
    {
        var page = new StringBuilder("""
            # Calls and fields in JSON

            Made from the contract by `tests/MixEngine.Contracts.Tests`; the same for machines: [openapi.json](openapi.json). Change the protos, then say
            `MIXENGINE_APPROVE=1 dotnet test --project tests/MixEngine.Contracts.Tests` and read the difference.

            A request may use either name of a field, an answer has the JSON name. What is not set may be left out. A 64-bit whole number is a text in answers
            (and may be one in requests), bytes are base64. A name that is not in these tables is refused. Answers may get further fields: pass over those you do not know.

            ## Calls

            "Again" tells which calls may be repeated after a broken connection as if asked once (`idempotency_level` in the protos).

            | HTTP | gRPC | again | |
            | --- | --- | --- | --- |

            """.ReplaceLineEndings("\n"));
        foreach (var method in Contract.Services.SelectMany(service => service.Methods))
        {
            var http = Contract.HttpOf(method) is var (verb, path) ? $"`{verb} {path}`" : "";
            var again = method.GetOptions().IdempotencyLevel == MethodOptions.Types.IdempotencyLevel.IdempotencyUnknown ? "" : "yes";
            page.Append($"| {http} | `{method.Service.Name}/{method.Name}` | {again} | {Contract.CommentOf(method.Declaration)} |\n");
        }

        page.Append("\n## Fields\n");
        foreach (var message in Contract.Messages)
        {
            page.Append($"\n### {message.Name}\n{Paragraph(Contract.CommentOf(message.Declaration))}\n");
            page.Append(message.Fields.InDeclarationOrder().Count == 0 ? "No fields.\n" : "| JSON | protobuf | kind | |\n| --- | --- | --- | --- |\n");
            foreach (var field in message.Fields.InDeclarationOrder())
            {
                page.Append($"| `{field.JsonName}` | `{field.Name}` | {KindOf(field)} | {Contract.CommentOf(field.Declaration).Replace("|", "\\|", StringComparison.Ordinal)} |\n");
            }
        }

        return page.ToString();
    }

    private static string Paragraph(string text) => text.Length == 0 ? "" : text + "\n";

    private static string KindOf(FieldDescriptor field)
    {
        var kind = field.FieldType switch
        {
            FieldType.Message => field.MessageType.File.Package == "mixengine.v1" ? $"[{field.MessageType.Name}](#{field.MessageType.Name.ToLowerInvariant()})" : field.MessageType.FullName,
            FieldType.String => "text",
            FieldType.Double => "number",
            FieldType.Int32 => "whole number",
            FieldType.Int64 => "whole number as text",
            FieldType.Bool => "true or false",
            FieldType.Bytes => "base64",
            _ => field.FieldType.ToString().ToLowerInvariant(),
        };
        var oneof = field.RealContainingOneof is { } choice ? $", one of {choice.Name}" : "";
        return (field.IsRepeated ? $"list of {kind}" : kind) + oneof;
    }
}

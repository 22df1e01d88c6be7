using Google.Protobuf.Reflection;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.OpenApi;
using Microsoft.OpenApi.Extensions;
using Microsoft.OpenApi.Models;
using MixEngine.V1;
using Swashbuckle.AspNetCore.Swagger;

namespace MixEngine.Contracts.Tests;

/// <summary>The JSON side of the contract as an OpenAPI document, made from the transcoding that serves it, and mended where that describes it wrongly.</summary>
internal static class OpenApiDocument
{
    public static string Write()
    {
        var document = FromTranscoding();
        document.Servers = [new OpenApiServer { Url = "http://127.0.0.1:7400", Description = "mixengine serve --http 127.0.0.1:7400" }];
        document.Components.SecuritySchemes["key"] = new OpenApiSecurityScheme { Type = SecuritySchemeType.Http, Scheme = "bearer", Description = "The access key of a shared service; one on your own machine asks for none." };
        document.SecurityRequirements = [new(), new() { [new OpenApiSecurityScheme { Reference = new OpenApiReference { Type = ReferenceType.SecurityScheme, Id = "key" } }] = [] }];
        LetDetailsBeAnything(document.Components.Schemas);
        MergePathsThatDifferInAName(document);
        foreach (var method in Contract.Services.SelectMany(service => service.Methods))
        {
            Complete(document, method);
        }

        foreach (var message in Contract.Messages.Where(message => document.Components.Schemas.ContainsKey(message.Name)))
        {
            Complete(document.Components.Schemas[message.Name], message);
        }

        return document.SerializeAsJson(OpenApiSpecVersion.OpenApi3_0).ReplaceLineEndings("\n") + "\n";
    }

    private static Microsoft.OpenApi.Models.OpenApiDocument FromTranscoding()
    {
        var builder = WebApplication.CreateEmptyBuilder(new WebApplicationOptions());
        builder.WebHost.UseKestrelCore();
        builder.Services.AddRoutingCore();
        builder.Services.AddGrpc().AddJsonTranscoding();
        builder.Services.AddGrpcSwagger();
        builder.Services.AddSwaggerGen(openApi => openApi.SwaggerDoc("v1", new OpenApiInfo
        {
            Title = "MixEngine",
            Version = "v1",
            Description = "What a miniature painter's own acrylic bottles do when mixed and layered. A refusal is a google.rpc.Status whose details name each field at fault.",
        }));

        // Never started: its routes are all that is asked for.
        var app = builder.Build();
        app.UseRouting();
        app.MapGrpcService<BatchCalls>();
        app.MapGrpcService<LayeringCalls>();
        app.MapGrpcService<MixingCalls>();
        app.MapGrpcService<SchemesCalls>();
        app.MapGrpcService<ShelvesCalls>();
        app.MapGrpcService<SwatchesCalls>();
        app.UseEndpoints(_ => { });
        return app.Services.GetRequiredService<ISwaggerProvider>().GetSwagger("v1");
    }

    // What an Any holds stands in it as it is, lists too; it is described as an object with objects in it.
    private static void LetDetailsBeAnything(IDictionary<string, OpenApiSchema> schemas)
    {
        schemas["Any"].AdditionalProperties = new OpenApiSchema();
        foreach (var unused in new[] { "Value", "Struct", "ListValue", "NullValue", "KindOneofCase" })
        {
            schemas.Remove(unused);
        }
    }

    // One path in OpenAPI, two in the protos: {swatch.id} and {id} are the same place.
    private static void MergePathsThatDifferInAName(Microsoft.OpenApi.Models.OpenApiDocument document)
    {
        foreach (var (path, item) in document.Paths.Where(path => path.Key.Contains('.', StringComparison.Ordinal)).ToArray())
        {
            document.Paths.Remove(path);
            var merged = NameOf(path);
            foreach (var parameter in item.Operations.Values.SelectMany(operation => operation.Parameters).Where(parameter => parameter.In == ParameterLocation.Path))
            {
                parameter.Name = parameter.Name.Split('.')[^1];
            }

            if (!document.Paths.TryAdd(merged, item))
            {
                foreach (var (verb, operation) in item.Operations)
                {
                    document.Paths[merged].Operations.Add(verb, operation);
                }
            }
        }
    }

    private static string NameOf(string path) => path.Replace("{swatch.id}", "{id}", StringComparison.Ordinal);

    private static void Complete(Microsoft.OpenApi.Models.OpenApiDocument document, MethodDescriptor method)
    {
        if (Contract.HttpOf(method) is not var (verb, path))
        {
            return;
        }

        var operation = document.Paths[NameOf(path)].Operations[Enum.Parse<OperationType>(verb, ignoreCase: true)];
        operation.OperationId = $"{method.Service.Name}_{method.Name}";
        operation.Description = Contract.CommentOf(method.Declaration) is { Length: > 0 } comment ? comment : null;
        if (method.IsServerStreaming)
        {
            operation.Responses["200"].Description = "One such object on each line, as soon as there is one.";
        }

        foreach (var parameter in operation.Parameters)
        {
            FieldDescriptor? field = null;
            foreach (var step in parameter.Name.Split('.'))
            {
                field = (field?.MessageType ?? method.InputType).Fields.InDeclarationOrder().FirstOrDefault(candidate => candidate.JsonName == step);
                if (field is null)
                {
                    break;
                }
            }

            parameter.Description = Contract.CommentOf(field?.Declaration) is { Length: > 0 } text ? text : null;
        }
    }

    private static void Complete(OpenApiSchema schema, MessageDescriptor message)
    {
        schema.Description = Contract.CommentOf(message.Declaration) is { Length: > 0 } comment ? comment : null;

        // v1 grows: who reads an answer passes over what it does not know.
        schema.AdditionalPropertiesAllowed = true;
        foreach (var field in message.Fields.InDeclarationOrder())
        {
            var property = schema.Properties[field.JsonName];
            var value = field.IsRepeated ? property.Items : property;
            if (field.FieldType == FieldType.Int64)
            {
                (value.Type, value.Format) = ("string", "int64");
            }
            else if (field.FieldType == FieldType.Bytes)
            {
                value.Format = "byte";
            }

            // A reference takes no description in OpenAPI 3.0: it stands in a list of one.
            if (Contract.CommentOf(field.Declaration) is { Length: > 0 } text)
            {
                schema.Properties[field.JsonName] = property.Reference is null ? property : new OpenApiSchema { AllOf = [property] };
                schema.Properties[field.JsonName].Description = text;
            }
        }
    }

    private sealed class BatchCalls : Batch.BatchBase;

    private sealed class LayeringCalls : Layering.LayeringBase;

    private sealed class MixingCalls : Mixing.MixingBase;

    private sealed class SchemesCalls : Schemes.SchemesBase;

    private sealed class ShelvesCalls : Shelves.ShelvesBase;

    private sealed class SwatchesCalls : Swatches.SwatchesBase;
}

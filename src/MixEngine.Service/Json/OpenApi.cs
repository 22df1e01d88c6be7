namespace MixEngine.Service.Json;

/// <summary>Hands out the OpenAPI document of the JSON calls, as it is committed in protos/openapi.json.</summary>
internal static class OpenApi
{
    private const string Name = "openapi.json";

    public static void Map(IEndpointRouteBuilder routes) => routes.MapGet("/" + Name, WriteAsync);

    private static async Task WriteAsync(HttpContext context)
    {
        await using var document = typeof(OpenApi).Assembly.GetManifestResourceStream(Name)!;
        context.Response.ContentType = "application/json";
        context.Response.ContentLength = document.Length;
        await document.CopyToAsync(context.Response.Body, context.RequestAborted);
    }
}

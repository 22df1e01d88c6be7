using Grpc.Core;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.Extensions.DependencyInjection;
using MixEngine.V1;

namespace MixEngine.ServiceLoad;

/// <summary>What the stack alone can do: the same server library on the same kind of socket reads the same request and answers an empty message.</summary>
internal sealed class EmptyEcho : Mixing.MixingBase
{
    public override Task<PredictResponse> Predict(PredictRequest request, ServerCallContext context) => Task.FromResult(new PredictResponse());

    /// <summary>Answers on a socket until it is told to end.</summary>
    public static async Task ServeAsync(string socket)
    {
        var builder = WebApplication.CreateEmptyBuilder(new WebApplicationOptions());
        builder.WebHost.UseKestrelCore().ConfigureKestrel(kestrel => kestrel.ListenUnixSocket(socket, endpoint => endpoint.Protocols = HttpProtocols.Http2));
        builder.Services.AddGrpc();
        var app = builder.Build();
        app.UseRouting();
        app.MapGrpcService<EmptyEcho>();
        await app.RunAsync();
    }
}

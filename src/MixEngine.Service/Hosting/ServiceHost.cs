using System.Net;
using System.Net.Sockets;
using Grpc.Core;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using MixEngine.Service.Batches;
using MixEngine.Service.Calls;
using MixEngine.Service.Endpoints;
using MixEngine.Service.Json;
using MixEngine.Service.Options;
using MixEngine.Service.Refusals;
using MixEngine.Service.Schemes;
using MixEngine.Service.Shelves;
using MixEngine.Storage;
using ListenOptions = MixEngine.Service.Options.ListenOptions;

namespace MixEngine.Service.Hosting;

/// <summary>Puts the web application together.</summary>
internal static class ServiceHost
{
    /// <summary>The application, not started.</summary>
    public static WebApplication Build(ServiceOptions options, Database database, Action<ILoggingBuilder> logging)
    {
        // Empty: no settings file of whatever folder the user happens to be in, and no variables of other programs.
        var builder = WebApplication.CreateEmptyBuilder(new WebApplicationOptions { ApplicationName = "MixEngine.Service" });
        logging(builder.Logging);
        builder.WebHost.UseKestrelCore().UseKestrelHttpsConfiguration().ConfigureKestrel(kestrel => Listen(kestrel, options));
        builder.WebHost.UseSockets(sockets => sockets.CreateBoundListenSocket = BindPrivately);

        builder.Services.Configure<HostOptions>(host => host.ShutdownTimeout = TimeSpan.FromSeconds(5));
        builder.Services.AddSingleton(TimeProvider.System);
        builder.Services.AddSingleton(options.Idle);
        builder.Services.AddSingleton(options.Deadline);
        builder.Services.AddSingleton<RequestsUnderWay>();
        builder.Services.AddHostedService<IdleStop>();
        builder.Services.AddSingleton(database);
        builder.Services.AddSingleton<ShelfStore>();
        builder.Services.AddSingleton<SwatchStore>();
        builder.Services.AddSingleton<LoadedShelves>();
        builder.Services.AddSingleton<BatchStore>();
        builder.Services.AddSingleton<ItemSolver>();
        builder.Services.AddSingleton<SchemeRunner>();
        builder.Services.AddSingleton<SchemeRunStore>();
        builder.Services.AddSingleton<MixLog>();

        builder.Services
            .AddGrpc(grpc =>
            {
                grpc.MaxReceiveMessageSize = MessageSizeLimit.MostMessageBytes;
                grpc.Interceptors.Add<ErrorInterceptor>();
                grpc.Interceptors.Add<DeadlineInterceptor>();
            })
            .AddJsonTranscoding(json =>
            {
                json.TypeRegistry = JsonAnswer.Details;

                // As protobuf JSON has them: a number in JSON keeps 53 bits.
                json.JsonSettings.WriteInt64sAsStrings = true;
            });

        // A page in a browser cannot ask under a name of its own that it had resolved to this machine.
        builder.Services.AddHostFiltering(hosts => hosts.AllowedHosts = ["localhost", "127.0.0.1", "[::1]"]);
        builder.Services.AddGrpcReflection();
        builder.Services.AddGrpcHealthChecks().AddCheck<DatabaseHealth>("database");

        var app = builder.Build();
        var requests = app.Services.GetRequiredService<RequestsUnderWay>();
        app.Use(next => context => requests.CountAsync(context, next));
        app.Use(next => context => MessageSizeLimit.CheckAsync(context, next));
        app.UseWhen(context => !HttpProtocol.IsHttp2(context.Request.Protocol), http1 => http1.UseHostFiltering());
        app.Use(next => context => UnreadableMessage.CheckAsync(context, next));
        app.UseRouting();
        app.Use(next => context => JsonRequest.CheckAsync(context, next));
        app.MapGrpcService<ShelvesEndpoint>();
        app.MapGrpcService<MixingEndpoint>();
        app.MapGrpcService<BatchEndpoint>();
        app.MapGrpcService<SchemesEndpoint>();
        app.MapGrpcService<LayeringEndpoint>();
        app.MapGrpcService<SwatchesEndpoint>();
        app.MapGrpcReflectionService();
        app.MapGrpcHealthChecksService();
        ExcelAddIn.Map(app, options.Excel);
        app.MapFallback(context => JsonAnswer.WriteAsync(context, StatusCodes.Status404NotFound, Nowhere(context)));
        return app;
    }

    private static Refusal Nowhere(HttpContext context) => new(
        StatusCode.NotFound, "path", $"There is no {context.Request.Method} {Shown.Of(context.Request.Path)}; the calls and their paths stand in protos/mixengine/v1.");

    private static void Listen(KestrelServerOptions kestrel, ServiceOptions options)
    {
        kestrel.AddServerHeader = false;

        // A stream's client may take its time with the answers: that is what holds the solving back.
        kestrel.Limits.MinResponseDataRate = null;
        kestrel.Limits.MaxRequestBodySize = MessageSizeLimit.MostBodyBytes;
        if (options.Listen.Grpc is { } grpc)
        {
            kestrel.Listen(grpc, endpoint => endpoint.Protocols = HttpProtocols.Http2);
        }

        if (options.Listen.Http is { } http)
        {
            kestrel.Listen(http, endpoint =>
            {
                endpoint.Protocols = HttpProtocols.Http1;
                var logger = endpoint.ApplicationServices.GetRequiredService<ILogger<Http2Refusal>>();
                var refusal = new Http2Refusal(SpeaksHttp1Only(options.Listen), logger);
                endpoint.Use(next => connection => refusal.OrNextAsync(connection, next));
            });
        }

        ExcelAddIn.Listen(kestrel, options.Excel);
        kestrel.ListenUnixSocket(options.Socket.Path, endpoint => endpoint.Protocols = HttpProtocols.Http2);
    }

    private static string SpeaksHttp1Only(ListenOptions listen) =>
        listen.Grpc is { } grpc
            ? $"This port speaks HTTP/1.1 (JSON) only. For HTTP/2 (gRPC) use {grpc} or the service's socket."
            : "This port speaks HTTP/1.1 (JSON) only. For HTTP/2 (gRPC) use the service's socket, or start it with --grpc 127.0.0.1:PORT.";

    // Bound but not listening yet, a socket lets nobody in: there is no moment at which others could.
    private static Socket BindPrivately(EndPoint endpoint)
    {
        var socket = Microsoft.AspNetCore.Server.Kestrel.Transport.Sockets.SocketTransportOptions.CreateDefaultBoundListenSocket(endpoint);
        if (endpoint is UnixDomainSocketEndPoint path)
        {
            PrivateFiles.Restrict(path.ToString());
        }

        return socket;
    }
}

using Grpc.Core;
using MixEngine.Service.Access;
using MixEngine.Service.Batches;
using MixEngine.Service.Calls;
using MixEngine.Service.Computing;
using MixEngine.Service.Endpoints;
using MixEngine.Service.Json;
using MixEngine.Service.Options;
using MixEngine.Service.Refusals;
using MixEngine.Service.Schemes;
using MixEngine.Service.Shelves;
using MixEngine.Service.Telemetry;
using MixEngine.Storage;

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
        Listeners.Add(builder.WebHost, options);
        builder.Services.AddSingleton(options.Tls);
        builder.Services.AddSingleton<ServerCertificate>();

        builder.Services.Configure<HostOptions>(host => host.ShutdownTimeout = Drain.LongestOf(options.Drain));
        builder.Services.AddSingleton(options.Drain);
        builder.Services.AddSingleton<Drain>();
        builder.Services.AddHostedService(services => services.GetRequiredService<Drain>());
        builder.Services.AddSingleton(TimeProvider.System);
        builder.Services.AddSingleton(options.Access);
        builder.Services.AddSingleton<AccessKeyStore>();
        builder.Services.AddSingleton<AccessCheck>();
        builder.Services.AddSingleton<CallRate>();
        builder.Services.AddSingleton(options.Idle);
        builder.Services.AddSingleton(options.Deadline);
        builder.Services.AddSingleton<RequestsUnderWay>();
        builder.Services.AddHostedService<IdleStop>();
        builder.Services.AddSingleton(database);
        builder.Services.AddSingleton<ShelfStore>();
        builder.Services.AddSingleton<SwatchStore>();
        builder.Services.AddSingleton<LoadedShelves>();
        builder.Services.AddSingleton<BatchStore>();
        builder.Services.AddSingleton<Workshop>();
        builder.Services.AddSingleton<ItemSolver>();
        builder.Services.AddSingleton<SchemeRunner>();
        builder.Services.AddSingleton<SchemeRunStore>();
        builder.Services.AddSingleton<MixLog>();
        builder.Services.AddSingleton<CallTime>();

        // They hold nothing of a call, and need not be made for each.
        builder.Services.AddSingleton<ErrorInterceptor>();
        builder.Services.AddSingleton<ShelvesEndpoint>();
        builder.Services.AddSingleton<MixingEndpoint>();
        builder.Services.AddSingleton<BatchEndpoint>();
        builder.Services.AddSingleton<SchemesEndpoint>();
        builder.Services.AddSingleton<LayeringEndpoint>();
        builder.Services.AddSingleton<SwatchesEndpoint>();

        builder.Services
            .AddGrpc(grpc =>
            {
                grpc.MaxReceiveMessageSize = MessageSizeLimit.MostMessageBytes;
                grpc.Interceptors.Add<ErrorInterceptor>();
            })
            .AddJsonTranscoding(json =>
            {
                json.TypeRegistry = JsonAnswer.Details;

                // As protobuf JSON has them: a number in JSON keeps 53 bits.
                json.JsonSettings.WriteInt64sAsStrings = true;
            });

        // A page in a browser cannot ask under a name of its own that it had resolved to this machine; a key it does not have.
        builder.Services.AddHostFiltering(hosts => hosts.AllowedHosts = ["localhost", "127.0.0.1", "[::1]"]);
        builder.Services.AddGrpcReflection();
        ServiceHealth.Add(builder.Services);
        Exporting.Add(builder, options.Telemetry);

        var app = builder.Build();
        var requests = app.Services.GetRequiredService<RequestsUnderWay>();
        app.Use(next => context =>
        {
            // Whatever answers is made once: no request needs a scope of its own in which things are made and disposed of.
            context.RequestServices = app.Services;
            return requests.CountAsync(context, next);
        });
        app.UseRouting();
        var (access, rate, audit) = (app.Services.GetRequiredService<AccessCheck>(), app.Services.GetRequiredService<CallRate>(), app.Services.GetRequiredService<ILogger<AccessCheck>>());
        var leaving = app.Services.GetRequiredService<Drain>().Leaving;
        app.Use(next => context => ClientPace.SetAsync(context, next, leaving));
        app.Use(next => context => CallRecord.KeepAsync(context, next, audit));
        app.Use(next => context => access.CheckAsync(context, next));
        app.Use(next => context => rate.CheckAsync(context, next));
        app.UseWhen(context => !HttpProtocol.IsHttp2(context.Request.Protocol) && Caller.Of(context).Key is null && context.Features.Get<KeyRequired>() is null, http1 => http1.UseHostFiltering());
        IEndpointConventionBuilder[] calls =
        [
            app.MapGrpcService<ShelvesEndpoint>(), app.MapGrpcService<MixingEndpoint>(), app.MapGrpcService<BatchEndpoint>(), app.MapGrpcService<SchemesEndpoint>(),
            app.MapGrpcService<LayeringEndpoint>(), app.MapGrpcService<SwatchesEndpoint>(), app.MapGrpcReflectionService(), ServiceHealth.Map(app),
        ];
        Array.ForEach(calls, call => call.Add(CallEndpoint.Add));
        Exporting.Map(app, options.Telemetry);
        OpenApi.Map(app);
        ExcelAddIn.Map(app, options.Excel);
        app.MapFallback(context => JsonAnswer.WriteAsync(context, StatusCodes.Status404NotFound, Nowhere(context)));
        return app;
    }

    private static Refusal Nowhere(HttpContext context) => new(
        StatusCode.NotFound, "path", $"There is no {context.Request.Method} {Shown.Of(context.Request.Path)}; the calls and their paths stand in protos/mixengine/v1.");
}

using Grpc.Core;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using MixEngine.V1;

namespace MixEngine.Cli.Tests.Running;

/// <summary>
/// Answers what a test prescribes, where the real service cannot be made to: a fixed answer for a page whose every character is
/// reviewed, a call that hangs, a name that holds control characters.
/// </summary>
public sealed class FakeService : IAsyncDisposable
{
    private readonly WebApplication _application;

    private FakeService(WebApplication application, string socket) => (_application, Address) = (application, "unix:" + socket);

    /// <summary>For --server.</summary>
    public string Address { get; }

    public static async Task<FakeService> StartAsync(Home home, Prescribed prescribed)
    {
        string socket = Path.Combine(home.Folder, "fake.sock");
        WebApplicationBuilder builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        builder.WebHost.ConfigureKestrel(kestrel => kestrel.ListenUnixSocket(socket, listen => listen.Protocols = HttpProtocols.Http2));
        builder.Services.AddGrpc();
        builder.Services.AddSingleton(prescribed);
        WebApplication application = builder.Build();
        application.MapGrpcService<FakeMixing>();
        application.MapGrpcService<FakeShelves>();
        application.MapGrpcService<FakeSwatches>();
        await application.StartAsync();
        return new FakeService(application, socket);
    }

    public async ValueTask DisposeAsync() => await _application.DisposeAsync();

    /// <summary>What is answered to each question; one that is not prescribed fails.</summary>
    public sealed record Prescribed
    {
        public Func<PredictRequest, ServerCallContext, Task<PredictResponse>> Predict { get; init; } = (_, _) => throw new NotSupportedException();

        public RampResponse? Ramp { get; init; }

        /// <summary>The answer to a match; null: it never comes.</summary>
        public MatchResponse? Match { get; init; }

        /// <summary>What is told while a match is searched, each after a moment.</summary>
        public IReadOnlyList<MatchProgress> MatchProgress { get; init; } = [];

        /// <summary>Sees what was asked.</summary>
        public Action<MatchRequest> Matched { get; init; } = _ => { };

        public GlazeResponse? Glaze { get; init; }

        /// <summary>Sees what was asked.</summary>
        public Action<GlazeRequest> Glazed { get; init; } = _ => { };

        public CoverResponse? Cover { get; init; }

        public ListPaintsResponse? Paints { get; init; }

        public GetPaintResponse? Paint { get; init; }

        public ImportShelfResponse? Import { get; init; }

        public AddSwatchResponse? AddedSwatch { get; init; }

        /// <summary>Sees what was given.</summary>
        public Action<AddSwatchRequest> Added { get; init; } = _ => { };

        public ListSwatchesResponse? Swatches { get; init; }

        public ImportSwatchesResponse? ImportedSwatches { get; init; }

        public AdviseSwatchResponse? Advice { get; init; }
    }

    private sealed class FakeMixing(Prescribed prescribed) : Mixing.MixingBase
    {
        public override Task<PredictResponse> Predict(PredictRequest request, ServerCallContext context) => prescribed.Predict(request, context);

        public override Task<RampResponse> Ramp(RampRequest request, ServerCallContext context) => Task.FromResult(prescribed.Ramp!);

        public override async Task MatchWithProgress(MatchWithProgressRequest request, IServerStreamWriter<MatchWithProgressResponse> responseStream, ServerCallContext context)
        {
            prescribed.Matched(request.Match);
            foreach (MatchProgress progress in prescribed.MatchProgress)
            {
                await responseStream.WriteAsync(new MatchWithProgressResponse { Progress = progress });
                await Task.Delay(600, context.CancellationToken);
            }
            if (prescribed.Match is null)
            {
                await Task.Delay(Timeout.Infinite, context.CancellationToken);
            }
            await responseStream.WriteAsync(new MatchWithProgressResponse { Answer = prescribed.Match });
        }

        public override Task<GlazeResponse> Glaze(GlazeRequest request, ServerCallContext context)
        {
            prescribed.Glazed(request);
            return Task.FromResult(prescribed.Glaze!);
        }

        public override Task<CoverResponse> Cover(CoverRequest request, ServerCallContext context) => Task.FromResult(prescribed.Cover!);
    }

    private sealed class FakeShelves(Prescribed prescribed) : Shelves.ShelvesBase
    {
        public override Task<ListPaintsResponse> ListPaints(ListPaintsRequest request, ServerCallContext context) => Task.FromResult(prescribed.Paints!);

        public override Task<GetPaintResponse> GetPaint(GetPaintRequest request, ServerCallContext context) => Task.FromResult(prescribed.Paint!);

        public override Task<ImportShelfResponse> ImportShelf(ImportShelfRequest request, ServerCallContext context) => Task.FromResult(prescribed.Import!);
    }

    private sealed class FakeSwatches(Prescribed prescribed) : Swatches.SwatchesBase
    {
        public override Task<AddSwatchResponse> AddSwatch(AddSwatchRequest request, ServerCallContext context)
        {
            prescribed.Added(request);
            return Task.FromResult(prescribed.AddedSwatch!);
        }

        public override Task<ListSwatchesResponse> ListSwatches(ListSwatchesRequest request, ServerCallContext context) => Task.FromResult(prescribed.Swatches!);

        public override Task<ImportSwatchesResponse> ImportSwatches(ImportSwatchesRequest request, ServerCallContext context) => Task.FromResult(prescribed.ImportedSwatches!);

        public override Task<AdviseSwatchResponse> AdviseSwatch(AdviseSwatchRequest request, ServerCallContext context) => Task.FromResult(prescribed.Advice!);
    }
}

using Grpc.Core;
using MixEngine.Core;
using MixEngine.Service.Access;
using MixEngine.Service.Computing;
using MixEngine.Service.Mapping;
using MixEngine.Service.Matching;
using MixEngine.Service.Refusals;
using MixEngine.Service.Shelves;
using MixEngine.V1;

namespace MixEngine.Service.Endpoints;

/// <summary>The five questions.</summary>
internal sealed class MixingEndpoint(LoadedShelves shelves, Workshop workshop) : Mixing.MixingBase
{
    private readonly MatchSearch _search = new(workshop);

    public override Task<PredictResponse> Predict(PredictRequest request, ServerCallContext context)
    {
        var violations = new Violations();
        var shelf = shelves.Get(Caller.Of(context), request.Shelf);
        var view = ViewMapping.Read(request.View, violations);
        var recipe = RecipeMapping.ReadPigmented(request.Recipe, "recipe", shelf, violations);
        violations.ThrowIfAny();
        return Task.FromResult(PredictionMapping.Write(Prediction.Of(recipe!, view), request.View));
    }

    public override async Task<RampResponse> Ramp(RampRequest request, ServerCallContext context)
    {
        var violations = new Violations();
        var shelf = shelves.Get(Caller.Of(context), request.Shelf);
        var view = ViewMapping.Read(request.View, violations);
        var (through, options) = RampMapping.Read(request, shelf, violations);
        violations.ThrowIfAny();
        var ramp = await workshop.Searches.RunAsync(() => EngineRefusal.InField("through", () => EvenRamp.Through(through, view, options, context.CancellationToken)), context.CancellationToken);
        return RampMapping.Write(ramp, request.View);
    }

    public override async Task<MatchResponse> Match(MatchRequest request, ServerCallContext context)
    {
        var violations = new Violations();
        var shelf = shelves.Get(Caller.Of(context), request.Shelf);
        var view = ViewMapping.Read(request.View, violations);
        var (target, options) = MatchMapping.Read(request, view, shelf, violations);
        violations.ThrowIfAny();
        return await _search.FindAsync(target!, shelf, options, request.View, context);
    }

    public override async Task MatchWithProgress(MatchWithProgressRequest request, IServerStreamWriter<MatchWithProgressResponse> responseStream, ServerCallContext context)
    {
        var violations = new Violations();
        var asked = request.Match ?? throw new Refusal(StatusCode.InvalidArgument, "match", "Nothing is asked; give a target as for Match.");
        var shelf = shelves.Get(Caller.Of(context), asked.Shelf);
        var view = ViewMapping.Read(asked.View, violations);
        var (target, options) = MatchMapping.Read(asked, view, shelf, violations);
        violations.ThrowIfAny();
        await foreach (var part in _search.FindTelling(target!, shelf, options, asked.View, context))
        {
            await responseStream.WriteAsync(part, context.CancellationToken);
        }
    }

    public override async Task<GlazeResponse> Glaze(GlazeRequest request, ServerCallContext context)
    {
        var violations = new Violations();
        var shelf = shelves.Get(Caller.Of(context), request.Shelf);
        var view = ViewMapping.Read(request.View, violations);
        var surface = SurfaceMapping.Read(request.Over, "over", view, shelf, violations);
        var coats = CoatsMapping.Read(request, shelf, violations);
        violations.ThrowIfAny();
        return await workshop.Layers.RunAsync(() => GlazeMapping.Write(Core.Glaze.Over(surface!, coats!, view, context.CancellationToken), request.View), context.CancellationToken);
    }

    public override async Task<CoverResponse> Cover(CoverRequest request, ServerCallContext context)
    {
        var violations = new Violations();
        var shelf = shelves.Get(Caller.Of(context), request.Shelf);
        var view = ViewMapping.Read(request.View, violations);
        var recipe = RecipeMapping.ReadPigmented(request.Recipe, "recipe", shelf, violations);
        var (primers, coatUm) = CoverMapping.Read(request, violations);
        violations.ThrowIfAny();
        var covers = primers.Select(primer => (primer, CoatsToHide.Over(primer.Surface, recipe!, view, coatUm, context.CancellationToken)));
        return await workshop.Layers.RunAsync(() => CoverMapping.Write(recipe!, [.. covers]), context.CancellationToken);
    }
}

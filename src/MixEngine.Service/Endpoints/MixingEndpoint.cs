using Grpc.Core;
using MixEngine.Core;
using MixEngine.Service.Access;
using MixEngine.Service.Mapping;
using MixEngine.Service.Matching;
using MixEngine.Service.Refusals;
using MixEngine.Service.Shelves;
using MixEngine.V1;

namespace MixEngine.Service.Endpoints;

/// <summary>The five questions.</summary>
internal sealed class MixingEndpoint(LoadedShelves shelves) : Mixing.MixingBase
{
    public override Task<PredictResponse> Predict(PredictRequest request, ServerCallContext context)
    {
        var violations = new Violations();
        var shelf = shelves.Get(Caller.Of(context), request.Shelf);
        var view = ViewMapping.Read(request.View, violations);
        var recipe = RecipeMapping.ReadPigmented(request.Recipe, "recipe", shelf, violations);
        violations.ThrowIfAny();
        return Task.FromResult(PredictionMapping.Write(Prediction.Of(recipe!, view), request.View));
    }

    public override Task<RampResponse> Ramp(RampRequest request, ServerCallContext context)
    {
        var violations = new Violations();
        var shelf = shelves.Get(Caller.Of(context), request.Shelf);
        var view = ViewMapping.Read(request.View, violations);
        var (through, options) = RampMapping.Read(request, shelf, violations);
        violations.ThrowIfAny();
        var ramp = EngineRefusal.InField("through", () => EvenRamp.Through(through, view, options, context.CancellationToken));
        return Task.FromResult(RampMapping.Write(ramp, request.View));
    }

    public override Task<MatchResponse> Match(MatchRequest request, ServerCallContext context)
    {
        var violations = new Violations();
        var shelf = shelves.Get(Caller.Of(context), request.Shelf);
        var view = ViewMapping.Read(request.View, violations);
        var (target, options) = MatchMapping.Read(request, view, shelf, violations);
        violations.ThrowIfAny();
        return Task.FromResult(MatchSearch.Find(target!, shelf, options, request.View, context));
    }

    public override async Task MatchWithProgress(MatchWithProgressRequest request, IServerStreamWriter<MatchWithProgressResponse> responseStream, ServerCallContext context)
    {
        var violations = new Violations();
        var asked = request.Match ?? throw new Refusal(StatusCode.InvalidArgument, "match", "Nothing is asked; give a target as for Match.");
        var shelf = shelves.Get(Caller.Of(context), asked.Shelf);
        var view = ViewMapping.Read(asked.View, violations);
        var (target, options) = MatchMapping.Read(asked, view, shelf, violations);
        violations.ThrowIfAny();
        await foreach (var part in MatchSearch.FindTelling(target!, shelf, options, asked.View, context))
        {
            await responseStream.WriteAsync(part, context.CancellationToken);
        }
    }

    public override Task<GlazeResponse> Glaze(GlazeRequest request, ServerCallContext context)
    {
        var violations = new Violations();
        var shelf = shelves.Get(Caller.Of(context), request.Shelf);
        var view = ViewMapping.Read(request.View, violations);
        var surface = SurfaceMapping.Read(request.Over, "over", view, shelf, violations);
        var coats = CoatsMapping.Read(request, shelf, violations);
        violations.ThrowIfAny();
        return Task.FromResult(GlazeMapping.Write(Core.Glaze.Over(surface!, coats!, view, context.CancellationToken), request.View));
    }

    public override Task<CoverResponse> Cover(CoverRequest request, ServerCallContext context)
    {
        var violations = new Violations();
        var shelf = shelves.Get(Caller.Of(context), request.Shelf);
        var view = ViewMapping.Read(request.View, violations);
        var recipe = RecipeMapping.ReadPigmented(request.Recipe, "recipe", shelf, violations);
        var (primers, coatUm) = CoverMapping.Read(request, violations);
        violations.ThrowIfAny();
        var covers = primers.Select(primer => (primer, CoatsToHide.Over(primer.Surface, recipe!, view, coatUm, context.CancellationToken)));
        return Task.FromResult(CoverMapping.Write(recipe!, [.. covers]));
    }
}

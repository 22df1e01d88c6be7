using Grpc.Core;
using MixEngine.Core;
using MixEngine.Service.Access;
using MixEngine.Service.Computing;
using MixEngine.Service.Mapping;
using MixEngine.Service.Refusals;
using MixEngine.Service.Shelves;
using MixEngine.V1;

namespace MixEngine.Service.Endpoints;

/// <summary>Layers as painters build them.</summary>
internal sealed class LayeringEndpoint(LoadedShelves shelves, Workshop workshop) : Layering.LayeringBase
{
    public override Task<AuditRampResponse> AuditRamp(AuditRampRequest request, ServerCallContext context)
    {
        var (shelf, view, violations) = Begin(context, request.Shelf, request.View);
        var steps = RampInUse.Read(request.Steps, "steps", 2, shelf, violations);
        var options = RampInUse.ReadOptions(request.Drops, request.TopStep, violations);
        violations.ThrowIfAny();
        return workshop.Searches.RunAsync(() => RampAuditMapping.Write(RampAudit.Of(steps, view, options, context.CancellationToken), request.View), context.CancellationToken);
    }

    public override Task<ExtendRampResponse> ExtendRamp(ExtendRampRequest request, ServerCallContext context)
    {
        var (shelf, view, violations) = Begin(context, request.Shelf, request.View);
        var steps = RampInUse.Read(request.Steps, "steps", 2, shelf, violations);
        var (end, with) = RampExtensionMapping.Read(request, shelf, violations);
        var options = RampInUse.ReadOptions(request.Drops, 0, violations);
        violations.ThrowIfAny();
        return workshop.Searches.RunAsync(() => RampExtensionMapping.Write(Core.RampExtension.Of(steps, end, with, view, options, context.CancellationToken), end, request.View), context.CancellationToken);
    }

    public override Task<StepBetweenResponse> StepBetween(StepBetweenRequest request, ServerCallContext context)
    {
        var (shelf, view, violations) = Begin(context, request.Shelf, request.View);
        var from = RecipeMapping.ReadPigmented(request.From, "from", shelf, violations);
        var to = RecipeMapping.ReadPigmented(request.To, "to", shelf, violations);
        var options = RampInUse.ReadOptions(request.Drops, 0, violations);
        violations.ThrowIfAny();
        return workshop.Searches.RunAsync(
            () => RampExtensionMapping.Write(InBetween.Of(from!, to!, view, options, context.CancellationToken), from!, to!, view, options, request.View), context.CancellationToken);
    }

    public override Task<RampAroundResponse> RampAround(RampAroundRequest request, ServerCallContext context)
    {
        var (shelf, view, violations) = Begin(context, request.Shelf, request.View);
        var (target, options) = ColorRampMapping.Read(request, view, violations);
        violations.ThrowIfAny();
        return workshop.Searches.RunAsync(
            () => ColorRampMapping.Write(EngineRefusal.InField("shelf", () => ColorRamp.Around(target!, [.. shelf.Paints], view, options, context.CancellationToken)), target!, view, request.View),
            context.CancellationToken);
    }

    public override Task<GlazeToResponse> GlazeTo(GlazeToRequest request, ServerCallContext context)
    {
        var (shelf, view, violations) = Begin(context, request.Shelf, request.View);
        var (target, surfaces, recipes, options) = GlazeSearchMapping.Read(request, view, shelf, violations);
        violations.ThrowIfAny();
        return workshop.Layers.RunAsync(
            () => GlazeSearchMapping.Write(EngineRefusal.InField("recipes", () => GlazeSearch.Find(surfaces, target, recipes, view, options, context.CancellationToken)), target, view, request.View),
            context.CancellationToken);
    }

    public override Task<UndercoatResponse> Undercoat(UndercoatRequest request, ServerCallContext context)
    {
        var (shelf, view, violations) = Begin(context, request.Shelf, request.View);
        var recipe = RecipeMapping.ReadPigmented(request.Recipe, "recipe", shelf, violations);
        var (primers, coatUm) = UndercoatMapping.Read(request, violations);
        violations.ThrowIfAny();
        var over = primers.Select(primer => (
            primer,
            CoatsToHide.CountOver(primer.Surface.Stack(), recipe!, view, coatUm, Core.Coats.Most),
            Core.Undercoat.Best(primer, recipe!, shelf.Paints, view, coatUm, context.CancellationToken)));
        return workshop.Layers.RunAsync(() => UndercoatMapping.Write(recipe!, over, view), context.CancellationToken);
    }

    public override Task<FinishResponse> Finish(FinishRequest request, ServerCallContext context)
    {
        var (shelf, view, violations) = Begin(context, request.Shelf, request.View);
        var recipes = RampInUse.Read(request.Recipes, "recipes", 1, shelf, violations);
        var varnish = ViewMapping.ReadFinish(request.Varnish, "varnish", violations);
        violations.ThrowIfAny();
        var finishes = varnish is { } one ? [one] : Enum.GetValues<Finish>();
        return Task.FromResult(new FinishResponse { Looks = { finishes.Select(finish => RampLookMapping.Write(Core.RampLook.InFinish(recipes, view, finish))) } });
    }

    public override Task<LightResponse> Light(LightRequest request, ServerCallContext context)
    {
        var (shelf, view, violations) = Begin(context, request.Shelf, request.View);
        var recipes = RampInUse.Read(request.Recipes, "recipes", 1, shelf, violations);
        var (lamps, target) = LampMapping.Read(request, view, violations);
        violations.ThrowIfAny();
        return Task.FromResult(LampMapping.Write(recipes, lamps, target, view));
    }

    public override Task<EyesResponse> Eyes(EyesRequest request, ServerCallContext context)
    {
        var (shelf, view, violations) = Begin(context, request.Shelf, request.View);
        var recipes = RampInUse.Read(request.Recipes, "recipes", 1, shelf, violations);
        var eyes = RampLookMapping.ReadEyes(request.Eyes, violations);
        violations.ThrowIfAny();
        return Task.FromResult(new EyesResponse { Looks = { eyes.Select(eye => RampLookMapping.Write(Core.RampLook.ToEye(recipes, view, eye))) } });
    }

    private (Shelf Shelf, Core.View View, Violations Violations) Begin(ServerCallContext context, string shelf, V1.View? view)
    {
        var violations = new Violations();
        return (shelves.Get(Caller.Of(context), shelf), ViewMapping.Read(view, violations), violations);
    }
}

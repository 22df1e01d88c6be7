using MixEngine.Core;
using MixEngine.Service.Refusals;

namespace MixEngine.Service.Mapping;

/// <summary>Undercoats, as asked and as answered.</summary>
internal static class UndercoatMapping
{
    public static (IReadOnlyList<Primer> Primers, double CoatUm) Read(V1.UndercoatRequest request, Violations violations)
    {
        var thickness = CoatsMapping.ReadThickness(request.HasFilmThicknessUm ? request.FilmThicknessUm : null, "film_thickness_um", violations);
        return request.Over.Length == 0
            ? (Primer.All, thickness)
            : SurfaceMapping.ReadPrimer(request.Over, "over", violations) is { } primer ? ([primer], thickness) : ([], thickness);
    }

    public static V1.UndercoatResponse Write(Recipe recipe, IEnumerable<(Primer Primer, int? Coats, Undercoat? Undercoat)> plans, Core.View view)
    {
        var all = plans.ToArray();
        var best = all.Where(plan => plan.Coats is not null).MinBy(plan => plan.Coats);
        return new V1.UndercoatResponse
        {
            Recipe = RecipeMapping.Write(recipe),
            BestPrimer = best.Primer?.Name ?? "",
            Primers = { all.Select(plan => Write(plan.Primer, plan.Coats, plan.Undercoat, view)) },
        };
    }

    private static V1.PrimerPlan Write(Primer primer, int? coats, Undercoat? undercoat, Core.View view)
    {
        var message = new V1.PrimerPlan { Primer = primer.Name };
        if (coats is { } count)
        {
            message.Coats = count;
        }

        if (undercoat is not null)
        {
            message.Undercoat = new V1.UndercoatPlan
            {
                PaintId = undercoat.Paint.Id,
                Paint = undercoat.Paint.Name,
                Color = ColorMapping.Write(Prediction.AppearanceOf(Recipe.Of(undercoat.Paint), view)),
                Coats = undercoat.Coats,
                CoatsAbove = undercoat.CoatsAbove,
            };
        }

        return message;
    }
}

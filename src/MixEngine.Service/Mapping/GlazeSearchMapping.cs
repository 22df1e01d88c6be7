using MixEngine.Colorimetry;
using MixEngine.Core;
using MixEngine.Service.Refusals;
using MixEngine.Service.Shelves;

namespace MixEngine.Service.Mapping;

/// <summary>Glazes backwards, as asked and as answered.</summary>
internal static class GlazeSearchMapping
{
    /// <summary>Most let-downs that are tried.</summary>
    public const int MostLetDowns = 24;

    public static (Lab Target, IReadOnlyList<PaintedSurface> Surfaces, IReadOnlyList<Recipe> Recipes, GlazeSearchOptions Options) Read(
        V1.GlazeToRequest request, Core.View view, Shelf shelf, Violations violations)
    {
        var color = ColorInputMapping.Read(request.Target, "target", view.Condition, violations);
        if (request.Over.Count is < 1 or > RampOptions.MostSteps)
        {
            violations.Add("over", $"{request.Over.Count} layers are given; 1 to {RampOptions.MostSteps} can be glazed at once.");
        }

        PaintedSurface[] surfaces =
        [
            .. request.Over.Take(RampOptions.MostSteps).Select((surface, i) => SurfaceMapping.Read(surface, $"over[{i}]", view, shelf, violations)).OfType<PaintedSurface>(),
        ];
        Recipe[] recipes = request.Recipes.Count == 0
            ? [.. shelf.Paints.Where(paint => paint.Kind == PaintKind.Paint).Select(Recipe.Of)]
            : [.. request.Recipes.Take(RampOptions.MostSteps).Select((recipe, i) => RecipeMapping.ReadPigmented(recipe, $"recipes[{i}]", shelf, violations)).OfType<Recipe>()];
        if (recipes.Length == 0 && request.Recipes.Count == 0)
        {
            violations.Add("shelf", $"There is no paint on the shelf '{shelf.Name}' to glaze with.");
        }

        if (request.Recipes.Count > RampOptions.MostSteps)
        {
            violations.Add("recipes", $"{request.Recipes.Count} recipes are given; at most {RampOptions.MostSteps} are looked at.");
        }

        var options = ReadOptions(request, violations);
        return violations.Any ? (default, [], [], options) : (MatchMapping.TargetOf(color!).Under(view.Condition), surfaces, recipes, options);
    }

    public static V1.GlazeToResponse Write(GlazeSearchResult found, Lab target, Core.View view, V1.View? asked) => new()
    {
        Target = ColorMapping.Write(target, view.Condition),
        Glazes = { found.Matches.Select(match => Write(match, asked)) },
        Reached = found.Reached,
        Reason = found.Reason ?? "",
    };

    private static GlazeSearchOptions ReadOptions(V1.GlazeToRequest request, Violations violations)
    {
        if (request.MediumParts.Count > MostLetDowns)
        {
            violations.Add("medium_parts", $"{request.MediumParts.Count} let-downs are given; at most {MostLetDowns} are tried.");
        }

        for (var i = 0; i < Math.Min(request.MediumParts.Count, MostLetDowns); i++)
        {
            violations.InRange($"medium_parts[{i}]", request.MediumParts[i], 0, CoatsMapping.MostLetDown);
        }

        var usual = new GlazeSearchOptions();
        var water = violations.InRange("water_parts", request.WaterParts, 0, CoatsMapping.MostLetDown);
        var coats = violations.InRange("coats", request.Coats, 1, Coats.Most, ifZero: usual.MostCoats);
        var thickness = CoatsMapping.ReadThickness(request.HasFilmThicknessUm ? request.FilmThicknessUm : null, "film_thickness_um", violations);
        var tolerance = request.HasToleranceDeltaE00 ? violations.InRange("tolerance_delta_e00", request.ToleranceDeltaE00, 0, 100) : usual.Tolerance;
        return violations.Any ? usual : new GlazeSearchOptions
        {
            MediumParts = request.MediumParts.Count == 0 ? usual.MediumParts : [.. request.MediumParts.Distinct()],
            WaterParts = water,
            MostCoats = coats,
            CoatUm = thickness,
            Tolerance = tolerance,
        };
    }

    private static V1.GlazeMatch Write(GlazeMatch match, V1.View? view) => new()
    {
        Recipe = RecipeMapping.Write(match.Coats.Recipe),
        MediumParts = match.MediumParts,
        WaterParts = match.WaterParts,
        Coats = match.Coats.Count,
        DeltaE00 = match.DeltaE00,
        Layers = { match.Layers.Select(layer => Write(layer, view)) },
        Remarks = { match.Remarks },
    };

    private static V1.GlazedLayer Write(GlazedLayer layer, V1.View? view)
    {
        var message = new V1.GlazedLayer
        {
            Before = ColorMapping.Write(layer.Before),
            After = ColorMapping.Write(layer.After),
            ExpectedError = ColorMapping.Write(layer.ExpectedError),
            DeltaE00 = layer.DeltaE00,
            Reflectance = ColorMapping.WriteReflectance(layer.After.Reflectance, view),
        };
        if (layer.StepDeltaE00 is { } step)
        {
            message.StepDeltaE00 = step;
        }

        return message;
    }
}

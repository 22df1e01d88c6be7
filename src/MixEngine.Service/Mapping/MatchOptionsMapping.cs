using MixEngine.Core;
using MixEngine.Service.Refusals;
using MixEngine.Service.Shelves;

namespace MixEngine.Service.Mapping;

/// <summary>How a match is to be searched, as asked.</summary>
internal static class MatchOptionsMapping
{
    /// <summary>Most paints that may be named as not to be added.</summary>
    public const int MostMustNot = 1000;

    /// <summary>Most lights under which one match is to hold.</summary>
    public const int MostLights = 16;

    private const int MostAnswers = 100;
    private const double MostTolerance = 100;
    private static readonly MatchOptions Usual = new();

    public static MatchOptions Read(V1.MatchRequest request, View view, Shelf shelf, Violations violations)
    {
        var paints = violations.InRange("paints", request.Paints, 1, MatchOptions.MostPaints, ifZero: Usual.Paints);
        var drops = violations.InRange("drops", request.Drops, 1, MatchOptions.MostDrops, ifZero: Usual.Drops);
        var onPalette = request.Base is null ? null : RecipeMapping.Read(request.Base, "base", shelf, violations);
        var rule = ReadRule(request.LightRule, violations);
        var options = new MatchOptions
        {
            View = view,
            Paints = paints,
            Drops = drops,
            Tolerance = request.HasTolerance ? violations.InRange("tolerance", request.Tolerance, 0, MostTolerance) : Usual.Tolerance,
            Answers = violations.InRange("answers", request.Answers, 1, MostAnswers, ifZero: Usual.Answers),
            Must = ReadPaints(request.Must, "must", RecipeMapping.MostParts, shelf, violations),
            MustNot = ReadPaints(request.MustNot, "must_not", MostMustNot, shelf, violations),
            Base = onPalette,
            MediumAllowed = request.Medium,
            Lights = ReadLights(request.Lights, rule, violations),
            LightRule = rule,
            Threads = Environment.ProcessorCount,
        };
        CheckMust(options, shelf, violations);
        return options;
    }

    private static LightRule ReadRule(string rule, Violations violations)
    {
        if (rule.Length > 0 && Words.LightRule.Read(rule) is null)
        {
            violations.Add("light_rule", $"'{Shown.Of(rule)}' is no rule for several lights; use {Words.LightRule.All}.");
        }

        return Words.LightRule.Read(rule) ?? LightRule.Worst;
    }

    // Ids, each once; what was not found is noted.
    private static string[] ReadPaints(IReadOnlyList<string> names, string field, int most, Shelf shelf, Violations violations)
    {
        if (names.Count > most)
        {
            violations.Add(field, $"{names.Count} paints are named; at most {most} may be.");
        }

        return [.. names.Take(most).Select((name, i) => PaintLookup.Find(shelf, name, $"{field}[{i}]", violations)?.Id).OfType<string>().Distinct()];
    }

    private static LightShare[] ReadLights(IReadOnlyList<V1.MatchLight> lights, LightRule rule, Violations violations)
    {
        if (lights.Count > MostLights)
        {
            violations.Add("lights", $"{lights.Count} lights are given; a match holds under at most {MostLights}.");
        }

        return [.. lights.Take(MostLights).Select((light, i) => ReadLight(light, rule, $"lights[{i}]", violations)).OfType<LightShare>()];
    }

    private static LightShare? ReadLight(V1.MatchLight light, LightRule rule, string field, Violations violations)
    {
        if (light.HasWeight && rule == LightRule.Worst)
        {
            violations.Add($"{field}.weight", FormattableString.Invariant($"{light.Weight} is given, but under the worst light there are no weights; ask for light_rule weighted, or leave it out."));
        }
        else if (light.HasWeight && !(light.Weight is > 0 and <= RecipeMapping.MostOfOne))
        {
            violations.Add($"{field}.weight", FormattableString.Invariant($"{light.Weight} is no weight; a number above 0 is needed, at most {RecipeMapping.MostOfOne}."));
        }

        var lamp = new V1.Lamp { Name = light.Name, WavelengthNm = { light.WavelengthNm }, RelativePower = { light.RelativePower } };
        return LampMapping.Read(lamp, field, violations) is { } read ? new LightShare(read, light.HasWeight ? light.Weight : 1) : null;
    }

    // What must be in must be able to be: the engine would say so too, but not in which field.
    private static void CheckMust(MatchOptions options, Shelf shelf, Violations violations)
    {
        foreach (var id in options.Must)
        {
            var paint = shelf.AtHand.First(paint => paint.Id == id);
            if (paint.Kind == PaintKind.Water)
            {
                violations.Add("must", $"'{Shown.Of(paint.Name)}' leaves nothing when it dries, and so is in no recipe for a colour; leave it out.");
            }
            else if (paint.Kind == PaintKind.Medium && !options.MediumAllowed)
            {
                violations.Add("must", $"'{Shown.Of(paint.Name)}' is a medium, and medium is not allowed; set medium, or leave it out.");
            }
            else if (options.MustNot.Contains(id))
            {
                violations.Add("must_not", $"'{Shown.Of(paint.Name)}' must be in the recipe and must not; leave it out of one of them.");
            }
        }

        var added = options.Must.Count(id => options.Base?.Parts.Any(part => part.Paint.Id == id) is not true);
        if (added > Math.Min(options.Paints, options.Drops))
        {
            violations.Add("must", $"{added} paints must be in the recipe, which may have {options.Paints} paints and {options.Drops} drops; allow more, or name fewer.");
        }

        if (shelf.Paints.Where(paint => paint.Kind == PaintKind.Paint).All(paint => options.MustNot.Contains(paint.Id)))
        {
            violations.Add("must_not", $"It leaves no paint of the shelf '{shelf.Name}' to mix from; name fewer.");
        }
    }
}

using MixEngine.Core;
using MixEngine.Service.Refusals;

namespace MixEngine.Service.Mapping;

/// <summary>Covering primers, as asked and as answered.</summary>
internal static class CoverMapping
{
    public static (IReadOnlyList<Primer> Primers, double CoatUm) Read(V1.CoverRequest request, Violations violations)
    {
        var thickness = CoatsMapping.ReadThickness(request.HasFilmThicknessUm ? request.FilmThicknessUm : null, "film_thickness_um", violations);
        return request.Over.Length == 0
            ? (Primer.All, thickness)
            : SurfaceMapping.ReadPrimer(request.Over, "over", violations) is { } primer ? ([primer], thickness) : ([], thickness);
    }

    public static V1.CoverResponse Write(Recipe recipe, IReadOnlyList<(Primer Primer, CoatsToHide Coats)> covers) => new()
    {
        Recipe = RecipeMapping.Write(recipe),
        Color = ColorMapping.Write(covers[0].Coats.Hiding),
        Primers = { covers.Select(cover => Write(cover.Primer, cover.Coats)) },
        Remarks = { Remarks(covers) },
    };

    private static V1.CoverResult Write(Primer primer, CoatsToHide coats)
    {
        var message = new V1.CoverResult { Primer = primer.Name, Steps = { coats.Steps.Select(Write) } };
        if (coats.Count is { } count)
        {
            message.Coats = count;
        }

        if (coats.CountAtBest is { } best)
        {
            message.CoatsAtBest = best;
        }

        if (coats.CountAtWorst is { } worst)
        {
            message.CoatsAtWorst = worst;
        }

        return message;
    }

    private static V1.CoverCoat Write(CoverCoat coat) => new()
    {
        Coat = coat.Coat,
        Color = ColorMapping.Write(coat.Appearance),
        ContrastRatio = coat.ContrastRatio,
        RemainingDeltaE00 = coat.RemainingDeltaE00,
        ExpectedError = ColorMapping.Write(coat.ExpectedError),
    };

    // What holds over every primer is said once; the rest says over which.
    private static IEnumerable<string> Remarks(IReadOnlyList<(Primer Primer, CoatsToHide Coats)> covers) =>
        covers
            .SelectMany(cover => cover.Coats.Remarks.Select(remark => (remark, cover.Primer.Name)))
            .GroupBy(pair => pair.remark, pair => pair.Name)
            .Select(same => same.Count() == covers.Count && covers.Count > 1 || covers.Count == 1 ? same.Key : $"Over {string.Join(" and ", same)}: {same.Key}");
}

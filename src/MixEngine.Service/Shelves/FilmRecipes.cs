using MixEngine.Service.Mapping;
using MixEngine.Service.Refusals;
using MixEngine.Storage;

namespace MixEngine.Service.Shelves;

/// <summary>One film has one recipe.</summary>
internal static class FilmRecipes
{
    /// <summary>Notes each of these swatches that names a film which another swatch of the shelf has with another recipe.</summary>
    public static void Check(IEnumerable<StoredSwatch> shelf, IEnumerable<StoredSwatch> swatches, string field, Violations violations)
    {
        var films = shelf.Where(swatch => swatch.Evidence.Film is not null).ToLookup(swatch => swatch.Evidence.Film!);
        foreach (var swatch in swatches.Where(swatch => swatch.Evidence.Film is not null))
        {
            if (films[swatch.Evidence.Film!].FirstOrDefault(other => other.Id != swatch.Id && !other.Evidence.Parts.ToHashSet().SetEquals(swatch.Evidence.Parts)) is { } other)
            {
                violations.Add(field, $"The film '{Shown.Of(swatch.Evidence.Film!)}' of '{Shown.Of(SwatchMapping.RecipeText(swatch.Evidence))}' is that of '{Shown.Of(other.Id)}' too, which is of '{Shown.Of(SwatchMapping.RecipeText(other.Evidence))}'; one film has one recipe. Correct the recipe, or name another film.");
            }
        }
    }
}

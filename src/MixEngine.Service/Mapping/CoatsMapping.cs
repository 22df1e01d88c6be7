using MixEngine.Core;
using MixEngine.Service.Refusals;
using MixEngine.Service.Shelves;

namespace MixEngine.Service.Mapping;

/// <summary>Coats of a let-down recipe as asked.</summary>
internal static class CoatsMapping
{
    /// <summary>Most parts of medium, and of water, to one part of paint.</summary>
    public const double MostLetDown = 100;

    /// <summary>The coats of a layer of a surface; null, with violations noted, where something is wrong with them.</summary>
    public static Coats? Read(V1.Coats layer, string field, Shelf shelf, Violations violations) =>
        Read(layer.Recipe, layer.MediumParts, layer.WaterParts, layer.Coats_, Film(layer.HasFilmThicknessUm, layer.FilmThicknessUm), field + ".", shelf, violations);

    /// <summary>The coats of a glaze; null, with violations noted, where something is wrong with them.</summary>
    public static Coats? Read(V1.GlazeRequest glaze, Shelf shelf, Violations violations) =>
        Read(glaze.Recipe, glaze.MediumParts, glaze.WaterParts, glaze.Coats, Film(glaze.HasFilmThicknessUm, glaze.FilmThicknessUm), "", shelf, violations);

    /// <summary>Dry thickness of one coat of undiluted paint, µm: the one given, or the conventional one.</summary>
    public static double ReadThickness(double? filmUm, string field, Violations violations) =>
        filmUm is { } given
            ? violations.InRange(field, given, Coats.ThinnestUm, Coats.ThickestUm, "micrometres")
            : Core.Film.ConventionalCoatUm;

    private static Coats? Read(
        V1.RecipeInput? recipe, double mediumParts, double waterParts, int coats, double? filmUm, string prefix, Shelf shelf, Violations violations)
    {
        var own = new Violations();
        own.InRange(prefix + "medium_parts", mediumParts, 0, MostLetDown);
        own.InRange(prefix + "water_parts", waterParts, 0, MostLetDown);
        var count = own.InRange(prefix + "coats", coats, 1, Coats.Most, ifZero: 1);
        var thickness = ReadThickness(filmUm, prefix + "film_thickness_um", own);
        var read = RecipeMapping.Read(recipe, prefix + "recipe", shelf, own);
        var letDown = own.Any ? null : read!.LetDown(mediumParts, waterParts);
        if (letDown?.Parts.All(part => part.Paint.VolumeSolids == 0) == true)
        {
            own.Add(prefix + "recipe", $"'{Shown.Of(letDown.ToString())}' leaves no film when it dries; add a paint or a medium.");
        }

        violations.Add(own);
        return own.Any ? null : new Coats(letDown!, count, thickness);
    }

    private static double? Film(bool isThere, double value) => isThere ? value : null;
}

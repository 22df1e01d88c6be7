using MixEngine.Colorimetry;
using MixEngine.Core;
using MixEngine.Interchange;
using MixEngine.Service.Refusals;
using MixEngine.Service.Shelves;

namespace MixEngine.Service.Mapping;

/// <summary>Painted things as asked.</summary>
internal static class SurfaceMapping
{
    /// <summary>Most layers over a base.</summary>
    public const int MostLayers = 32;

    /// <summary>The surface; null, with violations noted, where something is wrong with it.</summary>
    public static PaintedSurface? Read(V1.Surface? input, string field, View view, Shelf shelf, Violations violations)
    {
        var surface = input?.BaseCase switch
        {
            V1.Surface.BaseOneofCase.Color => ColorInputMapping.Read(input.Color, $"{field}.color", view.Condition, violations) is { } color ? OfColor(color) : null,
            V1.Surface.BaseOneofCase.Recipe => RecipeMapping.ReadPigmented(input.Recipe, $"{field}.recipe", shelf, violations) is { } recipe ? PaintedSurface.OfHidingLayer(recipe) : null,
            V1.Surface.BaseOneofCase.Primer => ReadPrimer(input.Primer, $"{field}.primer", violations)?.Surface,
            _ => Refused(field, "Nothing is given that lies beneath; give a colour, a recipe or a primer.", violations),
        };
        var layers = input?.Coats ?? [];
        if (layers.Count > MostLayers)
        {
            return Refused($"{field}.coats", $"{layers.Count} layers are given; at most {MostLayers} are looked at.", violations);
        }

        for (var i = 0; i < layers.Count; i++)
        {
            var layer = CoatsMapping.Read(layers[i], $"{field}.coats[{i}]", shelf, violations);
            surface = layer is null ? null : surface?.Under(layer);
        }

        return surface;
    }

    /// <summary>A primer by its name; null, with a violation noted, where there is none of that name.</summary>
    public static Primer? ReadPrimer(string name, string field, Violations violations)
    {
        var primer = Primer.All.FirstOrDefault(known => string.Equals(known.Name, name.Trim(), StringComparison.OrdinalIgnoreCase));
        if (primer is null)
        {
            violations.Add(field, $"'{Shown.Of(name)}' is no primer; use {string.Join(", ", Primer.All.Select(known => known.Name))}.");
        }

        return primer;
    }

    private static PaintedSurface OfColor(ColorReading color) => color switch
    {
        HexReading { Hex: var hex } => PaintedSurface.OfColor(hex.ToXyz(), ViewingCondition.Default),
        LabReading { Lab: var lab, Condition: var condition } => PaintedSurface.OfColor(lab.ToXyz(TristimulusWeights.For(condition).White), condition),
        SpectrumReading spectrum => PaintedSurface.OfReflectance(SpectrumMapping.OnGrid(spectrum)),
        _ => throw new InvalidOperationException($"No surface is known of a {color.GetType().Name}."),
    };

    private static PaintedSurface? Refused(string field, string description, Violations violations)
    {
        violations.Add(field, description);
        return null;
    }
}

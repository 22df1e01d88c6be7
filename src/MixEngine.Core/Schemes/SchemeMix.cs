namespace MixEngine.Core;

/// <summary>A pot of a scheme: a mix of several paints, made once for all the areas that use it.</summary>
/// <param name="Number">1 for the first; pots are called by it on cards.</param>
/// <param name="Pot">Its recipe, and how much of it to make.</param>
/// <param name="Uses">Where it goes: figure, area and step.</param>
public sealed record SchemeMix(int Number, Pot Pot, IReadOnlyList<(AreaPlan Area, LayerPlan Layer)> Uses)
{
    /// <summary>What makes it this mix and no other.</summary>
    public string Key { get; } = KeyOf(Pot.Recipe);

    /// <summary>What makes two recipes the same mix: the same drops of the same bottles, in any order and scale.</summary>
    public static string KeyOf(Recipe recipe)
    {
        var smallest = WholeParts.Of(recipe) is { } whole ? recipe.Parts.Zip(whole, (part, drops) => part with { Parts = drops }) : recipe.Parts;
        return string.Join('+', smallest.OrderBy(part => part.Paint.Id, StringComparer.Ordinal).Select(part => FormattableString.Invariant($"{part.Parts:R} {part.Paint.Id}")));
    }
}

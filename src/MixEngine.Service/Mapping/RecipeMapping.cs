using MixEngine.Core;
using MixEngine.Service.Refusals;
using MixEngine.Service.Shelves;

namespace MixEngine.Service.Mapping;

/// <summary>Recipes as asked and as answered.</summary>
internal static class RecipeMapping
{
    /// <summary>Most paints in one recipe.</summary>
    public const int MostParts = 24;

    /// <summary>Fewest parts of a paint.</summary>
    public const double LeastParts = 1e-6;

    /// <summary>Most parts of a paint.</summary>
    public const double MostOfOne = 1e6;

    /// <summary>The recipe asked for; null, with violations noted, where it is none.</summary>
    public static Recipe? Read(V1.RecipeInput? input, string field, Shelf shelf, Violations violations)
    {
        var parts = (input?.Text.Length > 0, input?.Parts.Count > 0) switch
        {
            (true, true) => Refused(field, "Both text and parts are given; give one of them.", violations),
            (true, false) => FromText(input!.Text, $"{field}.text", shelf, violations),
            (false, true) => FromParts(input!.Parts, $"{field}.parts", shelf, violations),
            _ => Refused(field, "No recipe is given; give a text such as 2 tarred rope + 1 kelp, or parts.", violations),
        };
        if (parts is null)
        {
            return null;
        }

        if (Twice(parts) is { } twice)
        {
            violations.Add(field, $"'{Shown.Of(twice.Name)}' stands in the recipe {parts.Count(part => part.Paint.Id == twice.Id)} times; add its parts together.");
            return null;
        }

        return new Recipe(parts);
    }

    /// <summary>The recipe asked for, which must have a colour of its own; null, with violations noted, where it has none.</summary>
    public static Recipe? ReadPigmented(V1.RecipeInput? input, string field, Shelf shelf, Violations violations)
    {
        var recipe = Read(input, field, shelf, violations);
        if (recipe is null or { HasPigment: true })
        {
            return recipe;
        }

        violations.Add(field, $"'{Shown.Of(recipe.ToString())}' has no pigment, and so no colour of its own; add a paint.");
        return null;
    }

    /// <summary>The recipe as answered.</summary>
    public static V1.Recipe Write(Recipe recipe)
    {
        var (answered, total) = (new V1.Recipe { Text = recipe.ToString() }, recipe.Total);
        answered.Parts.Capacity = recipe.Parts.Count;
        foreach (var part in recipe.Parts)
        {
            answered.Parts.Add(Write(part, total));
        }

        return answered;
    }

    /// <summary>Parts as answered, each with its share of their sum.</summary>
    public static IEnumerable<V1.Part> Write(IReadOnlyList<Part> parts)
    {
        var total = parts.Sum(part => part.Parts);
        return parts.Select(part => Write(part, total));
    }

    private static V1.Part Write(Part part, double total) => new() { PaintId = part.Paint.Id, Paint = part.Paint.Name, Parts = part.Parts, Share = part.Parts / total };

    private static Paint? Twice(Part[] parts)
    {
        for (var i = 1; i < parts.Length; i++)
        {
            for (var j = 0; j < i; j++)
            {
                if (parts[i].Paint.Id == parts[j].Paint.Id)
                {
                    return parts[j].Paint;
                }
            }
        }

        return null;
    }

    private static Part[]? FromText(string text, string field, Shelf shelf, Violations violations) =>
        RecipeText.Read(text, name => PaintLookup.Exactly(shelf, name) is not null, field, violations) is { } read
            ? Parts(read.Count, i => (read[i].Name, read[i].Parts, field, field), field, shelf, violations)
            : null;

    private static Part[]? FromParts(IReadOnlyList<V1.PartInput> input, string field, Shelf shelf, Violations violations) =>
        Parts(input.Count, i => (input[i].Paint, input[i].Parts, $"{field}[{i}].paint", $"{field}[{i}].parts"), field, shelf, violations);

    private static Part[]? Parts(int count, Func<int, (string Name, double Parts, string NameField, string PartsField)> read, string field, Shelf shelf, Violations violations)
    {
        if (count > MostParts)
        {
            violations.Add(field, $"{count} paints are named; a recipe may have {MostParts}.");
            return null;
        }

        var (parts, found) = (new Part[count], 0);
        for (var i = 0; i < count; i++)
        {
            var (name, amount, nameField, partsField) = read(i);
            var inRange = Amount(partsField, name, amount, violations);
            if (PaintLookup.Find(shelf, name, nameField, violations) is { } paint && inRange)
            {
                parts[found++] = new Part(paint, amount);
            }
        }

        return found == count ? parts : null;
    }

    private static bool Amount(string field, string name, double amount, Violations violations)
    {
        if (amount is >= LeastParts and <= MostOfOne)
        {
            return true;
        }

        violations.Add(field, FormattableString.Invariant($"{amount} parts of '{Shown.Of(name)}'; a number above 0 is needed, from {LeastParts} to {MostOfOne}."));
        return false;
    }

    private static Part[]? Refused(string field, string description, Violations violations)
    {
        violations.Add(field, description);
        return null;
    }
}

namespace MixEngine.Core;

/// <summary>A recipe in its smallest whole drops: 2 + 4 is 1 + 2, and 1.5 + 1 is 3 + 2.</summary>
internal static class WholeParts
{
    private const int MostMultiplier = 1000;

    /// <summary>The whole numbers in the order of the recipe's parts; null where no multiple up to a thousand is whole.</summary>
    public static long[]? Of(Recipe recipe)
    {
        for (var multiplier = 1; multiplier <= MostMultiplier; multiplier++)
        {
            var scaled = recipe.Parts.Select(part => part.Parts * multiplier).ToArray();
            if (scaled.All(parts => parts >= 0.5 && parts < 1e9 && Math.Abs(parts - Math.Round(parts)) < 1e-6))
            {
                return Reduced(Array.ConvertAll(scaled, parts => (long)Math.Round(parts)));
            }
        }

        return null;
    }

    /// <summary>The recipe in its smallest whole drops.</summary>
    /// <exception cref="ArgumentException">No multiple of its parts is whole.</exception>
    public static Recipe InWholeDrops(this Recipe recipe) => Of(recipe) is { } whole
        ? new Recipe(recipe.Parts.Zip(whole, (part, drops) => part with { Parts = drops }))
        : throw new ArgumentException($"'{recipe}' cannot be counted in whole drops; give whole parts.", nameof(recipe));

    /// <summary>The recipe in its smallest whole drops, or as it is where it has none: what is painted already need not be counted.</summary>
    public static Recipe InWholeDropsIfCountable(this Recipe recipe) => Of(recipe) is null ? recipe : recipe.InWholeDrops();

    /// <summary>Divides by the greatest common divisor.</summary>
    public static long[] Reduced(long[] parts)
    {
        var divisor = parts.Aggregate(0L, GreatestCommonDivisor);
        return Array.ConvertAll(parts, part => part / divisor);
    }

    /// <summary>The greatest common divisor; 0 leaves the other as it is.</summary>
    public static long GreatestCommonDivisor(long a, long b)
    {
        while (b != 0)
        {
            (a, b) = (b, a % b);
        }

        return Math.Abs(a);
    }
}

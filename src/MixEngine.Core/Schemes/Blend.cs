namespace MixEngine.Core;

/// <summary>A step as it is made at the table: parts of pots that stand there mixed, and of paints from their bottles.</summary>
/// <remarks>A layer between two mixes is so many parts of the one and of the other: nobody counts the drops of five bottles for it.</remarks>
public sealed class Blend
{
    private const string PotPrefix = "pot:";

    /// <summary>Takes what is stirred together; a pot is a recipe of several paints, a paint alone is a recipe of one.</summary>
    /// <param name="parts">Recipes with their parts, equal volumes each.</param>
    public Blend(IReadOnlyList<BlendPart> parts)
    {
        Parts = parts;
        Recipe = parts.Count == 1 ? parts[0].Pot : Expanded(parts);
    }

    /// <summary>What is stirred together.</summary>
    public IReadOnlyList<BlendPart> Parts { get; }

    /// <summary>The same in parts of paints; fractions where pots are shared.</summary>
    public Recipe Recipe { get; }

    /// <summary>The blend of a pot alone.</summary>
    public static Blend Of(Recipe pot) => new([new BlendPart(pot, 1)]);

    /// <summary>A pot as one paint among others, so that ramps may count its parts; a paint alone is itself.</summary>
    internal static Paint AsPaint(Recipe pot)
    {
        if (pot.Parts.Count == 1)
        {
            return pot.Parts[0].Paint;
        }

        var mixture = Mixture.Of(pot);
        return new Paint
        {
            Id = PotPrefix + SchemeMix.KeyOf(pot),
            Name = $"({pot})",
            Optics = mixture.Optics,
            Surface = mixture.Surface,
            Finish = mixture.Finish,
            VolumeSolids = mixture.VolumeSolids,
            Grade = pot.Parts.Min(part => part.Paint.Grade),
        };
    }

    // Each pot gives its paints by their share of its volume.
    private static Recipe Expanded(IReadOnlyList<BlendPart> parts)
    {
        var drops = new Dictionary<string, (Paint Paint, double Drops)>();
        foreach (var (pot, count) in parts)
        {
            // A drop from a bottle has the bottle's size; a part of a pot is a conventional drop.
            var perPart = pot.Parts.Count == 1 ? 1 : 1 / (Paint.ConventionalDropsPerMl * Pot.MlOf(pot));
            foreach (var part in pot.Parts)
            {
                var amount = count * perPart * (pot.Parts.Count == 1 ? 1 : part.Parts);
                drops[part.Paint.Id] = (part.Paint, drops.GetValueOrDefault(part.Paint.Id).Drops + amount);
            }
        }

        return new Recipe(drops.Values.Select(entry => new Part(entry.Paint, entry.Drops)));
    }
}

/// <summary>So many parts of a pot.</summary>
/// <param name="Pot">The pot's recipe; a paint alone is a bottle.</param>
/// <param name="Parts">Above 0; whole.</param>
public readonly record struct BlendPart(Recipe Pot, double Parts)
{
    /// <summary>Volume of the parts, ml.</summary>
    public double Ml => Parts / (Pot.Parts.Count == 1 ? Pot.Parts[0].Paint.DropsPerMl ?? Paint.ConventionalDropsPerMl : Paint.ConventionalDropsPerMl);
}

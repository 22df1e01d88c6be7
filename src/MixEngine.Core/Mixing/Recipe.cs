using System.Collections.Immutable;
using System.Globalization;
using System.Runtime.CompilerServices;

namespace MixEngine.Core;

/// <summary>Parts of paints, stirred together. Neither order nor scale matters to the colour: 2:4 is 1:2.</summary>
public sealed class Recipe
{
    /// <summary>Takes one or more parts, each above 0 and finite, no paint twice.</summary>
    /// <exception cref="ArgumentException">Names the paint and the value at fault.</exception>
    public Recipe(IEnumerable<Part> parts)
    {
        All = [.. parts];
        Parts = All;
        if (All.Length == 0)
        {
            throw new ArgumentException("A recipe needs at least one part of a paint.", nameof(parts));
        }

        foreach (var part in All)
        {
            if (!(part.Parts > 0) || !double.IsFinite(part.Parts))
            {
                throw new ArgumentException($"'{part.Paint.Name}' has {part.Parts.ToString(CultureInfo.InvariantCulture)} parts; a number above 0 is needed.", nameof(parts));
            }

            Total += part.Parts;
            Pigments += part.Paint.Kind == PaintKind.Paint ? 1 : 0;
        }

        // Recipes are short, and searches make many.
        for (var i = 1; i < All.Length; i++)
        {
            for (var j = 0; j < i; j++)
            {
                if (All[i].Paint.Id == All[j].Paint.Id)
                {
                    throw new ArgumentException($"'{All[j].Paint.Name}' stands twice in the recipe; add its parts together.", nameof(parts));
                }
            }
        }
    }

    /// <summary>A paint alone.</summary>
    public static Recipe Of(Paint paint) => new([new Part(paint, 1)]);

    /// <summary>The parts in the order given.</summary>
    public IReadOnlyList<Part> Parts { get; }

    /// <summary>The same, for who asks often.</summary>
    internal ImmutableArray<Part> All { get; }

    /// <summary>Sum of the parts.</summary>
    public double Total { get; }

    /// <summary>Whether there is pigment in it: medium and water alone have no colour of their own.</summary>
    public bool HasPigment => Pigments > 0;

    /// <summary>How many of the paints have pigment in them.</summary>
    internal int Pigments { get; }

    /// <summary>
    /// Adds other parts to this recipe taken as one part, as when a mixture is let down with medium. What of them is in it already is added up.
    /// </summary>
    public Recipe LetDown(double mediumParts, double waterParts)
    {
        var total = Total;
        Part[] added = [new Part(Paint.Medium, mediumParts * total), new Part(Paint.Water, waterParts * total)];
        return new Recipe(Parts
            .Concat(added.Where(part => part.Parts > 0))
            .GroupBy(part => part.Paint.Id)
            .Select(same => same.First() with { Parts = same.Sum(part => part.Parts) }));
    }

    /// <summary>"2 tarred rope + 1 kelp (67 % + 33 %)".</summary>
    public override string ToString()
    {
        // Every answer has one, most parts are whole, and formats take their time.
        var text = new DefaultInterpolatedStringHandler(0, 0, CultureInfo.InvariantCulture, stackalloc char[256]);
        for (var i = 0; i < All.Length; i++)
        {
            text.AppendLiteral(i == 0 ? "" : " + ");
            if (All[i].Parts == (int)All[i].Parts)
            {
                text.AppendFormatted((int)All[i].Parts);
            }
            else
            {
                text.AppendFormatted(All[i].Parts, "0.###");
            }

            text.AppendLiteral(" ");
            text.AppendLiteral(All[i].Paint.Name);
        }

        var total = Total;
        for (var i = 0; i < All.Length && All.Length > 1; i++)
        {
            var tenths = (int)Math.Round(1000 * All[i].Parts / total, MidpointRounding.AwayFromZero);
            text.AppendLiteral(i == 0 ? " (" : " + ");
            text.AppendFormatted(tenths / 10);
            if (tenths % 10 != 0)
            {
                text.AppendLiteral(".");
                text.AppendFormatted(tenths % 10);
            }

            text.AppendLiteral(i < All.Length - 1 ? " %" : " %)");
        }

        return text.ToStringAndClear();
    }
}

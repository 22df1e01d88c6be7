using System.Globalization;

namespace MixEngine.Core;

/// <summary>Equal coats of one recipe, one over the other. Let the recipe down first, if it is to be let down.</summary>
public sealed record Coats
{
    /// <summary>The most coats that are looked at.</summary>
    public const int Most = 100;

    /// <summary>The thinnest coat that is looked at, dry, µm.</summary>
    public const double ThinnestUm = 1;

    /// <summary>The thickest coat that is looked at, dry, µm.</summary>
    public const double ThickestUm = 200;

    /// <summary>Takes a recipe that leaves a film, 1 to 100 coats, and the dry thickness that undiluted paint would leave in one coat, 1 to 200 µm.</summary>
    /// <exception cref="ArgumentException">A number is out of range, or the recipe is water alone.</exception>
    public Coats(Recipe recipe, int count, double coatUm = Film.ConventionalCoatUm)
    {
        if (count is < 1 or > Most)
        {
            throw new ArgumentOutOfRangeException(nameof(count), count, $"Between 1 and {Most} coats can be asked for.");
        }

        if (!(coatUm is >= ThinnestUm and <= ThickestUm))
        {
            throw new ArgumentOutOfRangeException(nameof(coatUm), coatUm, string.Create(CultureInfo.InvariantCulture, $"A dry coat is between {ThinnestUm} and {ThickestUm} µm thick."));
        }

        if (recipe.Parts.All(part => part.Paint.VolumeSolids == 0))
        {
            throw new ArgumentException($"'{recipe}' leaves no film when it dries; add a paint or a medium.", nameof(recipe));
        }

        (Recipe, Count, CoatUm) = (recipe, count, coatUm);
    }

    /// <summary>What is brushed on.</summary>
    public Recipe Recipe { get; }

    /// <summary>How many coats.</summary>
    public int Count { get; }

    /// <summary>Dry thickness that undiluted paint would leave in one coat, µm.</summary>
    public double CoatUm { get; }

    /// <summary>What is seen after each coat, the first first.</summary>
    public IEnumerable<SeenStack> Over(SeenStack beneath, Perturbation perturbation = default)
    {
        var mixture = Mixture.Of(Recipe, perturbation);
        var film = Film.Coat(mixture, CoatUm * perturbation.CoatFactor);
        var seen = beneath;
        for (var coat = 0; coat < Count; coat++)
        {
            // Clear medium keeps the finish beneath: it carries no reading of its own.
            seen = Recipe.HasPigment
                ? new SeenStack(seen.Films.Under(film), mixture.Surface, mixture.Finish)
                : seen with { Films = seen.Films.Under(film) };
            yield return seen;
        }
    }
}

using System.Globalization;
using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>Something painted: any colour or a hiding layer of a recipe, and what was brushed over it since. Adding coats gives a new one.</summary>
public sealed class PaintedSurface
{
    private readonly Func<Perturbation, SeenStack> _bottom;
    private readonly IReadOnlyList<Part> _bottomParts;
    private readonly Coats[] _coats;

    private PaintedSurface(Func<Perturbation, SeenStack> bottom, IReadOnlyList<Part> bottomParts, Coats[] coats, IReadOnlyList<string> remarks) =>
        (_bottom, _bottomParts, _coats, Remarks) = (bottom, bottomParts, coats, remarks);

    /// <summary>What had to be bent to start from the colour given, in plain words.</summary>
    public IReadOnlyList<string> Remarks { get; }

    /// <summary>All paints at work in it with their doses, bottom up.</summary>
    public IEnumerable<Part> Parts => [.. _bottomParts, .. _coats.SelectMany(coats => coats.Recipe.Parts)];

    /// <summary>Starts from a colour, specular excluded: of a print, a photograph, an older layer. It is taken as it is, without an error of its own.</summary>
    /// <remarks>The smoothest reflectance of that colour [Burns2020], taken below the surface [Saunderson1942].</remarks>
    public static PaintedSurface OfColor(Xyz color, ViewingCondition condition)
    {
        var reconstructed = ReflectanceFromColor.Reconstruct(color, condition);
        var white = TristimulusWeights.For(condition).White;
        return OfReflectance(reconstructed.Reflectance, Lab.FromXyz(color, white), condition);
    }

    /// <summary>Starts from a reflectance, specular excluded.</summary>
    public static PaintedSurface OfReflectance(Reflectance measured)
    {
        var weights = TristimulusWeights.For(ViewingCondition.Default);
        return OfReflectance(measured, Lab.FromXyz(weights.ToXyz(measured), weights.White), ViewingCondition.Default);
    }

    /// <summary>Starts from a reflectance below the surface, seen through gloss: a primer.</summary>
    public static PaintedSurface OfInternal(Reflectance internalReflectance)
    {
        var bottom = new SeenStack(new FilmStack(internalReflectance), default, null);
        return new PaintedSurface(_ => bottom, [], [], []);
    }

    /// <summary>Starts from a hiding layer of a recipe.</summary>
    /// <exception cref="ArgumentException">There is no pigment in it: it hides nothing.</exception>
    public static PaintedSurface OfHidingLayer(Recipe recipe)
    {
        if (!recipe.HasPigment)
        {
            throw new ArgumentException($"'{recipe}' has no pigment, and so cannot be a hiding layer; name at least one paint.", nameof(recipe));
        }

        return new PaintedSurface(
            perturbation =>
            {
                var mixture = Mixture.Of(recipe, perturbation);
                return new SeenStack(new FilmStack(mixture.OpaqueInternal()), mixture.Surface, mixture.Finish);
            },
            recipe.Parts, [], []);
    }

    /// <summary>The surface with more coats on it.</summary>
    public PaintedSurface Under(Coats coats) => new(_bottom, _bottomParts, [.. _coats, coats], Remarks);

    /// <summary>Its films and surface.</summary>
    public SeenStack Stack(Perturbation perturbation = default) =>
        _coats.Aggregate(_bottom(perturbation), (beneath, coats) => coats.Over(beneath, perturbation).Last());

    private static PaintedSurface OfReflectance(Reflectance measured, Lab asked, ViewingCondition condition)
    {
        // Seen away from the highlight, nothing of the first reflection is in the reading.
        var surface = new SurfaceReflection(0);
        Span<double> inside = stackalloc double[SpectralGrid.Bands];
        for (var band = 0; band < inside.Length; band++)
        {
            inside[band] = Math.Clamp(surface.ToInternal(measured[band]), 0, 1);
        }

        var bottom = new SeenStack(new FilmStack(new Reflectance(inside)), surface, null);

        // Where no surface can have the colour, say what was taken instead.
        var taken = bottom.LabUnder(new View(condition));
        var moved = DeltaE2000.Between(asked, taken);
        string[] remarks = moved > 0.05
            ? [string.Create(CultureInfo.InvariantCulture, $"No painted surface can have the colour beneath as given; Lab {taken.L:0.0}, {taken.A:0.0}, {taken.B:0.0} was taken, {moved:0.0} dE00 away.")]
            : [];
        return new PaintedSurface(_ => bottom, [], [], remarks);
    }
}

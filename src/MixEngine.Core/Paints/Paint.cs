using System.Collections.Immutable;

namespace MixEngine.Core;

/// <summary>One bottle's paint: what it is called, what it does to light, and how well that is known. Immutable.</summary>
public sealed record Paint
{
    /// <summary>Drops to the millilitre where a bottle's own number is not known (common practice, no source; real bottles give 15 to 50).</summary>
    public const double ConventionalDropsPerMl = 20;

    /// <summary>Volume share of an acrylic hobby paint or medium that stays when it dries (25 to 40 %, from memory).</summary>
    public const double ConventionalVolumeSolids = 0.35;

    /// <summary>Stable short name, unique on a shelf; ties between equal answers are broken by it.</summary>
    public required string Id { get; init; }

    /// <summary>The name its owner knows it by.</summary>
    public required string Name { get; init; }

    /// <summary>The maker's series, in the owner's words.</summary>
    public string? Range { get; init; }

    /// <summary>Paint, medium or water.</summary>
    public PaintKind Kind { get; init; }

    /// <summary>The maker's word for how it hides, where given.</summary>
    public OpacityWord? Opacity { get; init; }

    /// <summary>The finish to which it dries, where stated.</summary>
    public Finish? Finish { get; init; }

    /// <summary>Absorption and scattering of the dry film of the undiluted paint, 1/µm.</summary>
    public required AbsorptionScattering Optics { get; init; }

    /// <summary>The surface through which its evidence was read.</summary>
    public SurfaceReflection Surface { get; init; }

    /// <summary>The evidence its optics rest on.</summary>
    public required Grade Grade { get; init; }

    /// <summary>How its optics may be wrong; empty for medium and water.</summary>
    public ImmutableArray<UncertaintyMode> Uncertainty { get; init; } = [];

    /// <summary>Volume share that stays when it dries, 0 (water) to 1.</summary>
    public double VolumeSolids { get; init; } = ConventionalVolumeSolids;

    /// <summary>Drops from its bottle to the millilitre, where counted.</summary>
    public double? DropsPerMl { get; init; }

    /// <summary>What is left in the bottle, ml, where known.</summary>
    public double? MlLeft { get; init; }

    /// <summary>Colour Index names of its pigments, such as PW6, where the maker tells.</summary>
    public IReadOnlyList<string> Pigments { get; init; } = [];

    /// <summary>The owner's notes.</summary>
    public string? Notes { get; init; }

    /// <summary>What had to be assumed or bent to read the evidence, in plain words.</summary>
    public IReadOnlyList<string> Remarks { get; init; } = [];

    /// <summary>Clear acrylic medium: binder that stays in the film and neither absorbs nor scatters.</summary>
    public static Paint Medium { get; } = new() { Id = "medium", Name = "medium", Kind = PaintKind.Medium, Optics = AbsorptionScattering.Clear, Grade = Grade.None };

    /// <summary>Water: it thins the coat and leaves while drying.</summary>
    public static Paint Water { get; } = new() { Id = "water", Name = "water", Kind = PaintKind.Water, Optics = AbsorptionScattering.Clear, Grade = Grade.None, VolumeSolids = 0 };
}

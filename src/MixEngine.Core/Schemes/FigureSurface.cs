namespace MixEngine.Core;

/// <summary>How much there is to paint on a figure: estimates, to be replaced by the painter's own where known.</summary>
/// <remarks>
/// A grown person of 175 cm and 70 kg has 1.85 m² of skin (0.007184 · 70^0.425 · 175^0.725 [DuBois1916]). A figure of height h has
/// (h / 1750 mm)² of it; clothes, folds and kit double it (assumption, no source). A rider's mount brings 5 m² (from memory), a beast stands for eight
/// figures on foot (assumption).
/// </remarks>
public static class FigureSurface
{
    /// <summary>Height from sole to eye or crown of what is called a 28 to 32 mm figure, mm.</summary>
    public const double ConventionalHeightMm = 32;

    private const double PersonHeightMm = 1750;
    private const double PersonCm2 = 18_480;
    private const double MountCm2 = 50_000;
    private const double ClothesAndKit = 2;
    private const double BeastInFigures = 8;

    /// <summary>The sizes that have a name.</summary>
    public static IReadOnlyList<string> Names { get; } = ["foot", "mounted", "beast"];

    /// <summary>Surface of a figure on foot, cm².</summary>
    /// <param name="heightMm">Its height, mm, above 0.</param>
    public static double OnFoot(double heightMm) => Scaled(PersonCm2, heightMm) * ClothesAndKit;

    /// <summary>Surface of a figure of a named size, cm².</summary>
    /// <param name="size">One of <see cref="Names"/>.</param>
    /// <param name="heightMm">Height of a person at this scale, mm.</param>
    /// <exception cref="ArgumentException">No such size.</exception>
    public static double Of(string size, double heightMm) => size switch
    {
        "foot" => OnFoot(heightMm),
        "mounted" => OnFoot(heightMm) + Scaled(MountCm2, heightMm),
        "beast" => BeastInFigures * OnFoot(heightMm),
        _ => throw new ArgumentException($"There is no size named '{size}'. Known: {string.Join(", ", Names)}.", nameof(size)),
    };

    private static double Scaled(double cm2, double heightMm) => cm2 * heightMm * heightMm / (PersonHeightMm * PersonHeightMm);
}

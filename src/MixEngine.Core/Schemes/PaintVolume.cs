namespace MixEngine.Core;

/// <summary>How much of a mixture a surface takes.</summary>
public static class PaintVolume
{
    /// <summary>Wet thickness of a brush coat, µm: what leaves the conventional dry coat at the conventional share of solids (20 µm / 0.35 = 57 µm; computed).</summary>
    public const double WetCoatUm = Film.ConventionalCoatUm / Paint.ConventionalVolumeSolids;

    /// <summary>Share of what is mixed that never reaches the figure: it stays in the brush, on the palette, or dries (a half; common practice, no source).</summary>
    public const double Waste = 0.5;

    /// <summary>Millilitres to mix.</summary>
    /// <param name="surfaceCm2">Surface of one figure, cm².</param>
    /// <param name="share">Share of it that is covered, 0 to 1.</param>
    /// <param name="coats">Coats, 0 or more.</param>
    /// <param name="figures">How many figures.</param>
    /// <param name="surplus">Share mixed beyond the need, 0 or more.</param>
    public static double Ml(double surfaceCm2, double share, int coats, int figures, double surplus)
    {
        // 1 cm² under 1 µm is 10⁻⁴ cm³.
        const double mlPerCm2Um = 1e-4;
        return surfaceCm2 * share * coats * figures * WetCoatUm * mlPerCm2Um / (1 - Waste) * (1 + surplus);
    }
}

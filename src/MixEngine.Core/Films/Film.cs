namespace MixEngine.Core;

/// <summary>A dry film: what is in it, and how thick it lies.</summary>
/// <param name="Optics">Absorption and scattering, 1/µm.</param>
/// <param name="ThicknessUm">Dry thickness, µm, 0 or more.</param>
public sealed record Film(AbsorptionScattering Optics, double ThicknessUm)
{
    /// <summary>Dry thickness of one brush coat of undiluted paint on a figure, µm (10 to 30, from memory).</summary>
    public const double ConventionalCoatUm = 20;

    /// <summary>One coat of a mixture brushed on wet as thick as paint is: what is let down with water leaves less.</summary>
    /// <param name="mixture">The mixture.</param>
    /// <param name="coatUm">Dry thickness that undiluted paint would leave, µm.</param>
    public static Film Coat(Mixture mixture, double coatUm = ConventionalCoatUm) =>
        new(mixture.Optics, coatUm * mixture.VolumeSolids / Paint.ConventionalVolumeSolids);
}

using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>A dry film: what is in it, and how thick it lies.</summary>
public sealed class Film
{
    /// <summary>Dry thickness of one brush coat of undiluted paint on a figure, µm (10 to 30, from memory).</summary>
    public const double ConventionalCoatUm = 20;

    /// <summary>Standard deviation of ln(thickness) between one painter's coats and what is counted on: 10 to 30 µm (from memory) is two of them to either side of 17.</summary>
    public const double ThicknessScatter = 0.27;

    private readonly double[] _r0 = new double[SpectralGrid.Bands];
    private readonly double[] _t = new double[SpectralGrid.Bands];

    /// <summary>Takes the optics and a dry thickness in µm, 0 or more.</summary>
    public Film(AbsorptionScattering optics, double thicknessUm)
    {
        (Optics, ThicknessUm) = (optics, thicknessUm);
        for (var band = 0; band < _r0.Length; band++)
        {
            (_r0[band], _t[band]) = KubelkaMunk.Film(optics.K[band], optics.S[band], thicknessUm);
        }
    }

    /// <summary>Absorption and scattering, 1/µm.</summary>
    public AbsorptionScattering Optics { get; }

    /// <summary>Dry thickness, µm.</summary>
    public double ThicknessUm { get; }

    /// <summary>Internal reflectance over a perfect black, per band.</summary>
    public ReadOnlySpan<double> R0 => _r0;

    /// <summary>Internal transmittance, per band.</summary>
    public ReadOnlySpan<double> T => _t;

    /// <summary>One coat of a mixture brushed on wet as thick as paint is: what is let down with water leaves less.</summary>
    /// <param name="mixture">The mixture.</param>
    /// <param name="coatUm">Dry thickness that undiluted paint would leave, µm.</param>
    public static Film Coat(Mixture mixture, double coatUm = ConventionalCoatUm) =>
        new(mixture.Optics, coatUm * mixture.VolumeSolids / Paint.ConventionalVolumeSolids);
}

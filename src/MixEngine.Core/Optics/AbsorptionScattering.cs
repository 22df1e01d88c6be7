using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>
/// What light meets inside a dry film: Kubelka-Munk absorption K and scattering S, one pair a band
/// (<see cref="SpectralGrid"/>: 36 bands, 380 to 730 nm), in 1/µm of dry film.
/// </summary>
/// <remarks>
/// Both are finite and not negative; both zero means a clear film (medium). K and S of a mixture are the
/// volume-weighted sums of those of its parts [Duncan1940].
/// </remarks>
public sealed class AbsorptionScattering
{
    private readonly double[] _k;
    private readonly double[] _s;

    /// <summary>Takes 36 values of each, in 1/µm.</summary>
    /// <exception cref="ArgumentException">A length is not 36, or a value is negative or not finite; the message names the band.</exception>
    public AbsorptionScattering(ReadOnlySpan<double> absorptionPerUm, ReadOnlySpan<double> scatteringPerUm)
    {
        _k = Checked(absorptionPerUm, "absorption K");
        _s = Checked(scatteringPerUm, "scattering S");
    }

    /// <summary>A film without pigment: K = S = 0 in every band.</summary>
    public static AbsorptionScattering Clear { get; } = new(new double[SpectralGrid.Bands], new double[SpectralGrid.Bands]);

    /// <summary>Absorption K per band, 1/µm.</summary>
    public ReadOnlySpan<double> K => _k;

    /// <summary>Scattering S per band, 1/µm.</summary>
    public ReadOnlySpan<double> S => _s;

    /// <summary>Mixes by volume: K = Σ cᵢKᵢ, S = Σ cᵢSᵢ [Duncan1940].</summary>
    /// <param name="components">One or more optics.</param>
    /// <param name="shares">Their volume shares of the dry film, 0 or more, adding up to 1.</param>
    public static AbsorptionScattering Mix(IReadOnlyList<AbsorptionScattering> components, ReadOnlySpan<double> shares)
    {
        if (components.Count != shares.Length)
        {
            throw new ArgumentException($"There are {components.Count} components but {shares.Length} shares; give one share each.", nameof(shares));
        }

        var k = new double[SpectralGrid.Bands];
        var s = new double[SpectralGrid.Bands];
        for (var i = 0; i < components.Count; i++)
        {
            var c = shares[i];
            var (ki, si) = (components[i]._k, components[i]._s);
            for (var band = 0; band < k.Length; band++)
            {
                k[band] += c * ki[band];
                s[band] += c * si[band];
            }
        }

        return new AbsorptionScattering(k, s);
    }

    /// <summary>The same optics with K and S of each band multiplied by a factor to some power.</summary>
    /// <param name="factorK">Above 0, per band.</param>
    /// <param name="factorS">Above 0, per band.</param>
    /// <param name="power">1 multiplies by the factors, -1 divides by them.</param>
    public AbsorptionScattering Scaled(ReadOnlySpan<double> factorK, ReadOnlySpan<double> factorS, double power) =>
        new(Scaled(_k, factorK, power), Scaled(_s, factorS, power));

    private static double[] Scaled(double[] values, ReadOnlySpan<double> factors, double power)
    {
        // Four bands at a time.
        var scaled = new double[SpectralGrid.Bands];
        var from = MemoryMarshal.Cast<double, Vector256<double>>(values);
        var factor = MemoryMarshal.Cast<double, Vector256<double>>(factors);
        var to = MemoryMarshal.Cast<double, Vector256<double>>(scaled.AsSpan());
        for (var i = 0; i < to.Length; i++)
        {
            to[i] = power switch
            {
                1 => from[i] * factor[i],
                -1 => from[i] / factor[i],
                _ => from[i] * Vector256.Exp(power * Vector256.Log(factor[i])),
            };
        }

        return scaled;
    }

    private static double[] Checked(ReadOnlySpan<double> values, string what)
    {
        if (values.Length != SpectralGrid.Bands)
        {
            throw new ArgumentException($"{what} has {values.Length} bands; {SpectralGrid.Bands} are needed.");
        }

        for (var band = 0; band < values.Length; band++)
        {
            if (!double.IsFinite(values[band]) || values[band] < 0)
            {
                throw new ArgumentException($"{what} at {SpectralGrid.WavelengthNm(band)} nm is {values[band]}; a finite value of 0 or more is needed.");
            }
        }

        return values.ToArray();
    }
}

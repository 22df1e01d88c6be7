using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace MixEngine.Colorimetry;

/// <summary>
/// From a reflectance to XYZ: 36 weights per channel for one light and one observer, built in the manner of
/// [ASTM-E308] and [ASTM-E2022] from the 5 nm tables of [CIE15].
/// </summary>
/// <remarks>
/// The weights are those of the sum k * power * observer * reflectance over the 5 nm tables, with the reflectance
/// between our bands read by Lagrange interpolation. Power beyond our last band sees that band, so that nothing is lost and a
/// perfect white has exactly the white point of the tables. Where the interpolating cubic undershoots, single weights
/// are negative, as in the published tables of that method: by less than 0.01 for smooth lights, by up to 0.05 and 0.3 beside the lines of FL2 and FL11.
/// </remarks>
public sealed class TristimulusWeights
{
    private static readonly SpectralTable Degree2Table = SpectralTable.Load("observer-1931-2deg-5nm.csv");
    private static readonly SpectralTable Degree10Table = SpectralTable.Load("observer-1964-10deg-5nm.csv");

    // Weights live as long as their light: a service may be handed any number of measured lights.
    private static readonly ConditionalWeakTable<Illuminant, TristimulusWeights> Degree2Cache = [];
    private static readonly ConditionalWeakTable<Illuminant, TristimulusWeights> Degree10Cache = [];

    private readonly double[] _x = new double[SpectralGrid.Bands];
    private readonly double[] _y = new double[SpectralGrid.Bands];
    private readonly double[] _z = new double[SpectralGrid.Bands];

    private TristimulusWeights(Illuminant illuminant, SpectralTable observer)
    {
        ReadOnlySpan<double> power = illuminant.Power;
        var skip = (Illuminant.FirstNm - observer.FirstNm) / SpectralTable.StepNm;
        ReadOnlySpan<double> xBar = observer["x"].AsSpan(skip);
        ReadOnlySpan<double> yBar = observer["y"].AsSpan(skip);
        ReadOnlySpan<double> zBar = observer["z"].AsSpan(skip);

        // Scale so that the perfect white has Y = 100.
        var luminance = 0.0;
        for (var i = 0; i < power.Length; i++)
        {
            luminance += power[i] * yBar[i];
        }

        var k = 100 / luminance;

        // Give each 5 nm sample to the bands from which the reflectance there is interpolated.
        Span<double> bands = stackalloc double[SpectralGrid.Bands];
        for (var band = 0; band < bands.Length; band++)
        {
            bands[band] = SpectralGrid.WavelengthNm(band);
        }

        Span<double> share = stackalloc double[LagrangeInterpolation.MaxPoints];
        for (var i = 0; i < power.Length; i++)
        {
            var nm = Illuminant.FirstNm + i * Illuminant.StepNm;
            var (first, count) = LagrangeInterpolation.Weights(bands, nm, share);
            for (var j = 0; j < count; j++)
            {
                _x[first + j] += k * power[i] * xBar[i] * share[j];
                _y[first + j] += k * power[i] * yBar[i] * share[j];
                _z[first + j] += k * power[i] * zBar[i] * share[j];
            }
        }

        // A perfect white must be the white to the last bit, so it is summed the way every colour is.
        bands.Fill(1);
        White = ToXyz(bands);
    }

    /// <summary>The 36 weights of X; they sum to the white's X.</summary>
    public ReadOnlySpan<double> X => _x;

    /// <summary>The 36 weights of Y; they sum to 100.</summary>
    public ReadOnlySpan<double> Y => _y;

    /// <summary>The 36 weights of Z; they sum to the white's Z.</summary>
    public ReadOnlySpan<double> Z => _z;

    /// <summary>The perfect white under this light, Y = 100.</summary>
    public Xyz White { get; }

    /// <summary>The weights for a light and an observer; built once and kept as long as the light.</summary>
    public static TristimulusWeights For(ViewingCondition view)
    {
        ArgumentNullException.ThrowIfNull(view);
        return view.Observer switch
        {
            Observer.Degree2 => Degree2Cache.GetValue(view.Illuminant, light => new TristimulusWeights(light, Degree2Table)),
            Observer.Degree10 => Degree10Cache.GetValue(view.Illuminant, light => new TristimulusWeights(light, Degree10Table)),
            _ => throw new ArgumentOutOfRangeException(nameof(view), view.Observer, "The observer is the 2-degree or the 10-degree one."),
        };
    }

    /// <summary>The colour of a reflectance under this light.</summary>
    public Xyz ToXyz(Reflectance reflectance)
    {
        ArgumentNullException.ThrowIfNull(reflectance);
        return ToXyz(reflectance.Values);
    }

    /// <summary>The colour of 36 reflectance values. Allocates nothing; the values are not checked.</summary>
    /// <exception cref="ArgumentException">Not 36 values.</exception>
    public Xyz ToXyz(ReadOnlySpan<double> reflectance)
    {
        if (reflectance.Length != SpectralGrid.Bands)
        {
            throw new ArgumentException($"Expected {SpectralGrid.Bands} values, got {reflectance.Length}.", nameof(reflectance));
        }

        // Four bands at a time: 36 is nine fours, and the order of summation is the same on every machine.
        var r = MemoryMarshal.Cast<double, Vector256<double>>(reflectance);
        var wx = MemoryMarshal.Cast<double, Vector256<double>>(_x);
        var wy = MemoryMarshal.Cast<double, Vector256<double>>(_y);
        var wz = MemoryMarshal.Cast<double, Vector256<double>>(_z);
        Vector256<double> x = default, y = default, z = default;
        for (var i = 0; i < r.Length; i++)
        {
            x += wx[i] * r[i];
            y += wy[i] * r[i];
            z += wz[i] * r[i];
        }

        return new Xyz(Vector256.Sum(x), Vector256.Sum(y), Vector256.Sum(z));
    }
}

using System.Diagnostics.CodeAnalysis;

namespace MixEngine.Colorimetry;

/// <summary>
/// A light to look under: its relative spectral power every 5 nm from 380 to 780 nm.
/// The named ones are the published tables of [CIE15], whose white points were computed over the same range.
/// </summary>
public sealed class Illuminant
{
    internal const int FirstNm = 380;
    internal const int LastNm = 780;
    internal const int StepNm = SpectralTable.StepNm;
    private const double MustStartNm = 400;
    private const double MustEndNm = 700;

    internal const int Samples = (LastNm - FirstNm) / StepNm + 1;

    private static readonly Dictionary<string, Illuminant> Published = LoadPublished();

    private readonly double[] _power;

    private Illuminant(string name, double[] power)
    {
        Name = name;
        _power = power;
    }

    /// <summary>Short name, such as "D65" or "LED-B3".</summary>
    public string Name { get; }

    internal ReadOnlySpan<double> Power => _power;

    /// <summary>Incandescent lamp, 2856 K.</summary>
    public static Illuminant A { get; } = FromName("A");

    /// <summary>Warm daylight, 5000 K: the light of the printing trade.</summary>
    public static Illuminant D50 { get; } = FromName("D50");

    /// <summary>Mid-morning daylight, 5500 K.</summary>
    public static Illuminant D55 { get; } = FromName("D55");

    /// <summary>Average daylight, 6500 K: the light of sRGB.</summary>
    public static Illuminant D65 { get; } = FromName("D65");

    /// <summary>North-sky daylight, 7500 K.</summary>
    public static Illuminant D75 { get; } = FromName("D75");

    /// <summary>Cool white fluorescent tube, 4230 K.</summary>
    public static Illuminant FL2 { get; } = FromName("FL2");

    /// <summary>Narrow-band (three-band) fluorescent tube, 4000 K.</summary>
    public static Illuminant FL11 { get; } = FromName("FL11");

    /// <summary>All published illuminants that the engine carries.</summary>
    public static IReadOnlyList<Illuminant> All { get; } = [.. Published.Values];

    /// <summary>Finds a published illuminant by its name, in any case.</summary>
    /// <exception cref="ArgumentException">No such illuminant; the message lists the known ones.</exception>
    public static Illuminant FromName(string name) =>
        TryFromName(name, out var illuminant)
            ? illuminant
            : throw new ArgumentException(
                $"There is no illuminant named '{name}'. Known: {string.Join(", ", Published.Keys)}.", nameof(name));

    /// <summary>Finds a published illuminant by its name, in any case.</summary>
    public static bool TryFromName(string? name, [NotNullWhen(true)] out Illuminant? illuminant)
    {
        illuminant = null;
        return name is not null && Published.TryGetValue(name.Trim(), out illuminant);
    }

    /// <summary>Makes a light from a measured spectrum.</summary>
    /// <param name="name">A name for messages and reports.</param>
    /// <param name="wavelengthsNm">Strictly increasing, covering at least 400 to 700 nm. Beyond the ends there is no power.</param>
    /// <param name="relativePower">As many values, not negative, in any unit per nm.</param>
    /// <exception cref="ArgumentException">The message names what is wrong and at which wavelength.</exception>
    public static Illuminant FromSpectrum(string name, ReadOnlySpan<double> wavelengthsNm, ReadOnlySpan<double> relativePower)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(name);
        SpectralSamples.RefuseUnusable("the light", wavelengthsNm, relativePower, MustStartNm, MustEndNm);
        for (var i = 0; i < relativePower.Length; i++)
        {
            if (relativePower[i] < 0)
            {
                throw new ArgumentException(
                    $"The power at {SpectralSamples.Text(wavelengthsNm[i])} nm is {SpectralSamples.Text(relativePower[i])}, but it must not be negative.",
                    nameof(relativePower));
            }
        }

        // The unit has no meaning: with a largest value of 1 no sum overflows or vanishes.
        var largest = relativePower.ToArray().Max();
        relativePower = relativePower.ToArray().Select(value => largest > 0 ? value / largest : 0).ToArray();

        var power = new double[Samples];
        if (SpectralSamples.WidestStepNm(wavelengthsNm) >= StepNm)
        {
            // A table as coarse as ours is read along straight lines, as CIE 15 does with the daylight tables.
            for (var i = 0; i < Samples; i++)
            {
                power[i] = AlongStraightLines(wavelengthsNm, relativePower, FirstNm + i * StepNm);
            }
        }
        else
        {
            // A finer table gives each sample's power to its two neighbours on the 5 nm grid, so that no line is lost between them.
            for (var i = 0; i < wavelengthsNm.Length; i++)
            {
                ShareOut(relativePower[i] * Width(wavelengthsNm, i), wavelengthsNm[i], power);
            }
        }

        return power.Any(value => value > 0)
            ? new Illuminant(name, power)
            : throw new ArgumentException($"The light '{name}' has no power between {FirstNm} and {LastNm} nm.", nameof(relativePower));
    }

    /// <summary>The name.</summary>
    public override string ToString() => Name;

    private static double AlongStraightLines(ReadOnlySpan<double> nm, ReadOnlySpan<double> power, double at)
    {
        if (at < nm[0] || at > nm[^1])
        {
            return 0;
        }

        var right = 1;
        while (nm[right] < at)
        {
            right++;
        }

        var t = (at - nm[right - 1]) / (nm[right] - nm[right - 1]);
        return power[right - 1] + t * (power[right] - power[right - 1]);
    }

    // The trapezoid rule: a sample stands for half the way to either neighbour.
    private static double Width(ReadOnlySpan<double> nm, int i) =>
        (nm[Math.Min(i + 1, nm.Length - 1)] - nm[Math.Max(i - 1, 0)]) / 2;

    private static void ShareOut(double energy, double nm, double[] power)
    {
        var place = (nm - FirstNm) / StepNm;
        var below = (int)Math.Floor(place);
        var share = place - below;
        if (below >= 0 && below < power.Length)
        {
            power[below] += energy * (1 - share) / StepNm;
        }

        if (below + 1 >= 0 && below + 1 < power.Length)
        {
            power[below + 1] += energy * share / StepNm;
        }
    }

    private static Dictionary<string, Illuminant> LoadPublished()
    {
        var table = SpectralTable.Load("illuminants-5nm.csv");
        var skip = (FirstNm - table.FirstNm) / StepNm;
        return table.Columns.ToDictionary(
            name => name,
            name => new Illuminant(name, table[name].AsSpan(skip, Samples).ToArray()),
            StringComparer.OrdinalIgnoreCase);
    }
}

using MixEngine.Colorimetry;
using MixEngine.Core;

namespace MixEngine.Benchmarks.Matching;

/// <summary>Invented paints of all kinds, the same ones each time for a seed.</summary>
internal static class InventedShelf
{
    /// <summary>Half of them characterised by a random hex and opacity word, half with random absorption bands.</summary>
    public static Paint[] Of(int paints, int seed)
    {
        var random = new Random(seed);
        return [.. Enumerable.Range(0, paints).Select(i => i % 2 == 0 ? ByColor(random, $"hex {i:0000}") : ByBands(random, $"bands {i:0000}"))];
    }

    /// <summary>The targets of the comparisons: muted and vivid, light and dark, one out of reach.</summary>
    public static IReadOnlyList<string> Targets { get; } = ["#5a6b3c", "#808080", "#a05038", "#203050", "#e0c080", "#7090c0", "#f0f0f8", "#ff2010"];

    private static Paint ByColor(Random random, string name)
    {
        var hex = new HexColor((byte)random.Next(10, 250), (byte)random.Next(10, 250), (byte)random.Next(10, 250));
        return ColorGrade.Characterize(Named(name, AbsorptionScattering.Clear) with { Opacity = (OpacityWord)random.Next(4) }, hex.ToXyz(), ViewingCondition.Default, ColorGrade.HexReading);
    }

    private static Paint ByBands(Random random, string name)
    {
        var scattering = 0.4 * Math.Exp(-3 * random.NextDouble());
        var (slope, ground) = (random.NextDouble() - 0.5, 0.3 * Math.Exp(-6 * random.NextDouble()));
        var bands = Enumerable.Range(0, random.Next(1, 4))
            .Select(_ => (At: 380 + 350 * random.NextDouble(), Width: 20 + 80 * random.NextDouble(), Height: Math.Exp(-3 + 4.5 * random.NextDouble()))).ToArray();
        var k = new double[SpectralGrid.Bands];
        var s = new double[SpectralGrid.Bands];
        for (var band = 0; band < k.Length; band++)
        {
            var nm = SpectralGrid.WavelengthNm(band);
            s[band] = scattering * Math.Exp(slope * (nm - 555) / 175);
            k[band] = scattering * (0.002 + ground + bands.Sum(one => one.Height * Math.Exp(-Math.Pow((nm - one.At) / one.Width, 2))));
        }

        return Named(name, new AbsorptionScattering(k, s));
    }

    private static Paint Named(string name, AbsorptionScattering optics) => new() { Id = name.Replace(' ', '-'), Name = name, Optics = optics, Grade = Grade.Color };
}

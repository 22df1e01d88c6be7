using System.Globalization;

namespace MixEngine.Interchange.Tests;

/// <summary>Spectral tables as text, made of plain numbers.</summary>
internal static class Spectra
{
    public static string Header(int first = 380, int last = 730, int step = 10) =>
        string.Join(',', Enumerable.Range(0, (last - first) / step + 1).Select(i => $"R{first + i * step}"));

    public static string Row(Func<int, double> value, int first = 380, int last = 730, int step = 10, char separator = ',') =>
        string.Join(separator, Enumerable.Range(0, (last - first) / step + 1).Select(i => value(first + i * step).ToString(CultureInfo.InvariantCulture)));

    /// <summary>36 bands between 0.9 and 1.4: a black in percent.</summary>
    public static double BlackInPercent(int nm) => Math.Round(1.15 + 0.25 * Math.Sin(nm / 60.0), 3);

    /// <summary>A smooth colour in fractions, 0.05 to 0.85.</summary>
    public static double Orange(int nm) => Math.Round(0.05 + 0.8 / (1 + Math.Exp(-(nm - 580) / 15.0)), 4);
}

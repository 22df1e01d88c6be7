using System.Globalization;
using MixEngine.Colorimetry;
using MixEngine.Interchange;
using MixEngine.Storage;

namespace MixEngine.Service.Shelves;

/// <summary>A colour reading as it is stored, and back without loss.</summary>
public static class StoredColorText
{
    private const string LabPrefix = "lab:", XyzPrefix = "xyz:", SpectrumPrefix = "spectrum:";

    /// <summary>To be stored.</summary>
    public static StoredColor Write(ColorReading reading) => reading switch
    {
        HexReading { Hex: var hex } => Stored(hex.ToString(), ViewingCondition.Default),
        LabReading { Lab: var lab, Condition: var condition } => Stored(LabPrefix + Join([lab.L, lab.A, lab.B]), condition),
        XyzReading { Xyz: var xyz, Condition: var condition } => Stored(XyzPrefix + Join([xyz.X, xyz.Y, xyz.Z]), condition),
        SpectrumReading spectrum => Stored(
            SpectrumPrefix + string.Join(',', spectrum.WavelengthsNm.Zip(spectrum.Factors, (nm, factor) => $"{Text(nm)}={Text(factor)}")),
            ViewingCondition.Default),
        _ => throw new ArgumentException($"A {reading.GetType().Name} cannot be stored.", nameof(reading)),
    };

    /// <summary>As it was.</summary>
    /// <exception cref="FormatException">It is nothing that was ever stored.</exception>
    public static ColorReading Read(StoredColor stored)
    {
        var condition = new ViewingCondition(
            Illuminant.FromName(stored.Illuminant), stored.ObserverDegrees == 10 ? Observer.Degree10 : Observer.Degree2);
        return stored.Text switch
        {
            ['#', ..] hex => new HexReading(HexColor.Parse(hex)),
            _ when After(stored.Text, LabPrefix) is { } lab && Numbers(lab, ',') is [var l, var a, var b] => new LabReading(new Lab(l, a, b), condition),
            _ when After(stored.Text, XyzPrefix) is { } xyz && Numbers(xyz, ',') is [var x, var y, var z] => new XyzReading(new Xyz(x, y, z), condition),
            _ when After(stored.Text, SpectrumPrefix) is { } bands => Spectrum(Numbers(bands, ',', '=')),
            _ => throw new FormatException($"'{stored.Text}' is no stored colour."),
        };
    }

    private static SpectrumReading Spectrum(double[] pairs) =>
        new([.. pairs.Where((_, i) => i % 2 == 0)], [.. pairs.Where((_, i) => i % 2 == 1)]);

    private static StoredColor Stored(string text, ViewingCondition condition) =>
        new(text, condition.Illuminant.Name, condition.Observer == Observer.Degree10 ? 10 : 2);

    private static string? After(string text, string prefix) => text.StartsWith(prefix, StringComparison.Ordinal) ? text[prefix.Length..] : null;

    private static double[] Numbers(string text, params char[] separators) =>
        [.. text.Split(separators).Select(number => double.Parse(number, NumberStyles.Float, CultureInfo.InvariantCulture))];

    private static string Join(double[] numbers) => string.Join(',', numbers.Select(Text));

    private static string Text(double number) => number.ToString("R", CultureInfo.InvariantCulture);
}

using System.Globalization;
using MixEngine.Colorimetry;
using MixEngine.Core;

namespace MixEngine.Accuracy;

/// <summary>
/// Measured paints and mixtures from a folder with compositions.csv (sample, then percent of each paint) and reflectance_10nm.csv
/// (sample, measurement, then reflectance every 10 nm; measurements are the film over a black and a white card, and the bare cards).
/// </summary>
internal sealed class MeasuredMixtures
{
    private MeasuredMixtures(IReadOnlyList<string> paints, IReadOnlyList<MeasuredSample> samples) => (Paints, Samples) = (paints, samples);

    /// <summary>Names of the paints.</summary>
    public IReadOnlyList<string> Paints { get; }

    /// <summary>The samples, in the order of the file.</summary>
    public IReadOnlyList<MeasuredSample> Samples { get; }

    /// <summary>Reads a folder; any paints and any samples will do.</summary>
    public static MeasuredMixtures Read(string folder)
    {
        var compositions = Rows(Path.Combine(folder, "compositions.csv"));
        var reflectances = Rows(Path.Combine(folder, "reflectance_10nm.csv"));
        var bands = reflectances[0].Skip(2).Select(int.Parse).ToArray();
        var readings = reflectances.Skip(1).ToLookup(row => row[0], row => (Measurement: row[1], Color: Spectrum(bands, row[2..])));
        var paints = compositions[0][1..];
        var samples = compositions.Skip(1).Where(row => readings.Contains(row[0])).Select(row =>
        {
            MeasuredColor Of(string measurement) => readings[row[0]].First(reading => reading.Measurement == measurement).Color;
            return new MeasuredSample(
                row[0],
                [.. row.Skip(1).Select((cell, i) => new SwatchPart(paints[i], Number(cell))).Where(part => part.Parts > 0)],
                Of("paint_over_black"), Of("paint_over_white"), Of("black_card_bare"), Of("white_card_bare"));
        });
        return new MeasuredMixtures(paints, [.. samples]);
    }

    private static string[][] Rows(string file) => [.. File.ReadLines(file).Where(line => line.Length > 0).Select(line => line.Split(','))];

    private static double Number(string cell) => cell.Length == 0 ? 0 : double.Parse(cell, CultureInfo.InvariantCulture);

    private static MeasuredColor Spectrum(int[] bands, string[] cells)
    {
        // Bands beyond those measured repeat the nearest one; they carry no weight in a fit.
        var values = new double[SpectralGrid.Bands];
        for (var band = 0; band < values.Length; band++)
        {
            var nm = Math.Clamp(SpectralGrid.WavelengthNm(band), bands[0], bands[^1]);
            values[band] = Number(cells[Array.IndexOf(bands, nm)]);
        }

        return MeasuredColor.Of(new Reflectance(values), bands[0], bands[^1]);
    }
}

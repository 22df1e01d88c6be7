namespace MixEngine.Colorimetry.Tests;

/// <summary>Published reflectances of real surfaces: 24 patches of a colour target [ISO 17321-1] and 14 CIE test colour samples [CIE 13.3].</summary>
internal static class MeasuredSpectra
{
    public static IEnumerable<(string Name, double[] Wavelengths, double[] Values)> EveryFiveNm(int firstNm, int lastNm)
    {
        foreach (var file in new[] { "ohta1997-colorchecker24-5nm.csv", "cie13-test-colours-5nm.csv" })
        {
            var table = PublishedTable.Load(file);
            var rows = table.Rows.Where(row => row["nm"] >= firstNm && row["nm"] <= lastNm).ToArray();
            foreach (var name in table.Header.Skip(1))
            {
                yield return (name, [.. rows.Select(row => row["nm"])], [.. rows.Select(row => row[name])]);
            }
        }
    }

    /// <summary>The values at our 36 bands, all of which are in the tables.</summary>
    public static Reflectance OnOurGrid((string Name, double[] Wavelengths, double[] Values) spectrum) =>
        new(Enumerable.Range(0, SpectralGrid.Bands)
            .Select(band => spectrum.Values[Array.IndexOf(spectrum.Wavelengths, SpectralGrid.WavelengthNm(band))])
            .ToArray());
}

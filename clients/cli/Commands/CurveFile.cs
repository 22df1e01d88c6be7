using System.Globalization;

namespace MixEngine.Cli.Commands;

/// <summary>A text file of wavelengths with a value each: a measured lamp, a measured surface.</summary>
internal static class CurveFile
{
    /// <summary>Reads it: two numbers a line, between them a comma, a semicolon, a tab or spaces; remarks and a heading are passed over.</summary>
    /// <param name="path">The file.</param>
    /// <param name="value">What stands beside each wavelength, "power" or "reflectance".</param>
    /// <exception cref="Refusal">It cannot be read; the line is named.</exception>
    public static (double[] WavelengthNm, double[] Values) Read(string path, string value)
    {
        List<double> wavelengths = [];
        List<double> values = [];
        string[] lines = TextFile.Read(path).Split('\n');
        for (int i = 0; i < lines.Length; i++)
        {
            string line = lines[i].Trim().TrimStart('\uFEFF');
            string[] cells = line.Split([',', ';', '\t', ' '], StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
            if (line.Length == 0 || line[0] == '#' || (wavelengths.Count == 0 && !Number(cells[0], out _)))
            {
                continue;
            }
            if (cells.Length != 2 || !Number(cells[0], out double nm) || !Number(cells[1], out double there))
            {
                throw new Refusal($"{path}, line {i + 1}: \"{line}\" is no wavelength with a {value}. Write both with a point before their decimals, such as 380,0.25.");
            }
            wavelengths.Add(nm);
            values.Add(there);
        }
        return wavelengths.Count > 0
            ? ([.. wavelengths], [.. values])
            : throw new Refusal($"{path} holds no wavelengths. Write one line for each: its nanometres and the {value} there.");
    }

    private static bool Number(string text, out double value) => double.TryParse(text, NumberStyles.Float, Numerals.Invariant, out value);
}

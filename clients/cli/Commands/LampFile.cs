using System.Globalization;
using MixEngine.V1;

namespace MixEngine.Cli.Commands;

/// <summary>A lamp as it is named on the line: a known light, or the file of a measured one.</summary>
internal static class LampFile
{
    /// <summary>A name goes to the service as it is; what is a file, or is written like one, is read.</summary>
    public static Lamp Read(string lamp)
    {
        if (!File.Exists(lamp) && lamp.IndexOfAny(['.', '/', '\\']) < 0)
        {
            return new Lamp { Name = lamp };
        }
        if (!File.Exists(lamp))
        {
            throw new Refusal($"There is no file {lamp}. Name a light such as D50, or the CSV file of a measured one.");
        }

        var read = new Lamp { Name = Path.GetFileNameWithoutExtension(lamp) };
        string[] lines = TextFile.Read(lamp).Split('\n');
        for (int i = 0; i < lines.Length; i++)
        {
            // Two numbers a line, between them a comma, a semicolon, a tab or spaces; remarks and a heading are passed over.
            string line = lines[i].Trim().TrimStart('\uFEFF');
            string[] cells = line.Split([',', ';', '\t', ' '], StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
            if (line.Length == 0 || line[0] == '#' || (read.WavelengthNm.Count == 0 && !Number(cells[0], out _)))
            {
                continue;
            }
            if (cells.Length != 2 || !Number(cells[0], out double nm) || !Number(cells[1], out double power))
            {
                throw new Refusal($"{lamp}, line {i + 1}: \"{line}\" is no wavelength with a power. Write both with a point before their decimals, such as 380,0.25.");
            }
            read.WavelengthNm.Add(nm);
            read.RelativePower.Add(power);
        }
        return read.WavelengthNm.Count > 0 ? read : throw new Refusal($"{lamp} holds no wavelengths. Write one line for each: its nanometres and the power there.");
    }

    private static bool Number(string text, out double value) => double.TryParse(text, NumberStyles.Float, Numerals.Invariant, out value);
}

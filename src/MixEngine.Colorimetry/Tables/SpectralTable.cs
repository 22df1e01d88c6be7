using System.Globalization;

namespace MixEngine.Colorimetry;

/// <summary>
/// A published table that travels inside the assembly as CSV. Lines that begin with # are its passport
/// (title, source, unit, grid, kind), the next line names the columns, the first column is the wavelength in nm.
/// </summary>
internal sealed class SpectralTable
{
    /// <summary>The step that all the published tables share, in nm.</summary>
    public const int StepNm = 5;

    private readonly Dictionary<string, double[]> _columns;

    private SpectralTable(int firstNm, Dictionary<string, double[]> columns)
    {
        FirstNm = firstNm;
        _columns = columns;
    }

    public int FirstNm { get; }

    public IEnumerable<string> Columns => _columns.Keys;

    public double[] this[string column] => _columns[column];

    /// <summary>Reads an embedded table. An empty cell lies outside the published range and counts as no power.</summary>
    public static SpectralTable Load(string fileName)
    {
        var assembly = typeof(SpectralTable).Assembly;
        using var stream = assembly.GetManifestResourceStream($"MixEngine.Colorimetry.Tables.{fileName}")
            ?? throw new InvalidOperationException($"The table {fileName} is missing from the assembly.");
        using var reader = new StreamReader(stream);
        var lines = reader.ReadToEnd()
            .Split('\n', StringSplitOptions.RemoveEmptyEntries)
            .Where(line => !line.StartsWith('#'))
            .Select(line => line.Split(','))
            .ToArray();

        var header = lines[0];
        var rows = lines[1..];
        var columns = new Dictionary<string, double[]>();
        for (var column = 1; column < header.Length; column++)
        {
            columns[header[column]] = rows.Select(cells => Number(cells[column])).ToArray();
        }

        return new SpectralTable(int.Parse(rows[0][0], CultureInfo.InvariantCulture), columns);
    }

    private static double Number(string cell) =>
        cell.Length == 0 ? 0 : double.Parse(cell, NumberStyles.Float, CultureInfo.InvariantCulture);
}

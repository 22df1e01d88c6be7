using System.Globalization;
using System.Reflection;

namespace MixEngine.Colorimetry.Tests;

/// <summary>A table of figures from outside, with its passport in the lines that begin with #.</summary>
internal sealed class PublishedTable
{
    private readonly string[] _header;

    private PublishedTable(string name, Dictionary<string, string> passport, string[] header, Row[] rows)
    {
        Name = name;
        Passport = passport;
        _header = header;
        Rows = rows;
    }

    public string Name { get; }

    public IReadOnlyDictionary<string, string> Passport { get; }

    public IReadOnlyList<string> Header => _header;

    public IReadOnlyList<Row> Rows { get; }

    public static IEnumerable<PublishedTable> AllIn(Assembly assembly) =>
        assembly.GetManifestResourceNames().Where(name => name.EndsWith(".csv")).Select(name => Read(assembly, name));

    public static PublishedTable Load(string fileName) =>
        Read(typeof(PublishedTable).Assembly, $"MixEngine.Colorimetry.Tests.PublishedValues.{fileName}");

    /// <summary>Half a unit of the last digit of a column: its longest cell counts, since the files drop trailing zeros.</summary>
    public double HalfDigit(string column)
    {
        var decimals = Rows.Max(row => row.Text(column).Contains('.') ? row.Text(column).Split('.')[1].Length : 0);
        return 0.5 * Math.Pow(10, -decimals);
    }

    /// <summary>A column as numbers.</summary>
    public double[] Column(string column) => [.. Rows.Select(row => row[column])];

    private static PublishedTable Read(Assembly assembly, string resource)
    {
        using var stream = assembly.GetManifestResourceStream(resource) ?? throw new ArgumentException($"No table {resource}.");
        using var reader = new StreamReader(stream);
        var lines = reader.ReadToEnd().Split('\n', StringSplitOptions.RemoveEmptyEntries);
        var passport = lines.Where(line => line.StartsWith('#'))
            .Select(line => line[1..].Split(':', 2))
            .ToDictionary(parts => parts[0].Trim(), parts => parts[1].Trim());
        var cells = lines.Where(line => !line.StartsWith('#')).Select(Split).ToArray();
        return new PublishedTable(resource, passport, cells[0], [.. cells[1..].Select(row => new Row(cells[0], row))]);
    }

    // Commas inside double quotes belong to the cell.
    private static string[] Split(string line)
    {
        var cells = new List<string> { "" };
        var quoted = false;
        foreach (var c in line)
        {
            if (c == '"')
            {
                quoted = !quoted;
            }
            else if (c == ',' && !quoted)
            {
                cells.Add("");
            }
            else
            {
                cells[^1] += c;
            }
        }

        return [.. cells];
    }

    internal sealed class Row(string[] header, string[] cells)
    {
        public string Text(string column) => cells[Array.IndexOf(header, column)];

        public double this[string column] => double.Parse(Text(column), NumberStyles.Float, CultureInfo.InvariantCulture);

        public override string ToString() => string.Join(",", cells);
    }
}

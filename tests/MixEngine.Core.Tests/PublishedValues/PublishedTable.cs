using System.Globalization;

namespace MixEngine.Core.Tests.PublishedValues;

/// <summary>A table of outside values: lines beginning with # are its passport, the next one names the columns.</summary>
internal static class PublishedTable
{
    public static IEnumerable<Dictionary<string, double>> Rows(string file)
    {
        var lines = File.ReadLines(Path.Combine(AppContext.BaseDirectory, "PublishedValues", file)).Where(line => !line.StartsWith('#')).ToArray();
        var header = lines[0].Split(',');
        return lines.Skip(1).Where(line => line.Length > 0).Select(line => line.Split(',')
            .Select((cell, i) => (Name: header[i], Value: double.Parse(cell, CultureInfo.InvariantCulture)))
            .ToDictionary(cell => cell.Name, cell => cell.Value));
    }
}

using MixEngine.Interchange;
using MixEngine.Service.Refusals;

namespace MixEngine.Service.Mapping;

/// <summary>Forms of tables as asked.</summary>
internal static class FormatMapping
{
    private static readonly (string Word, TableFormat Format, string Ending)[] OfSwatches =
    [
        ("csv", TableFormat.Csv, ".csv"),
        ("csv-long", TableFormat.CsvLong, ".csv"),
        ("cgats", TableFormat.Cgats, ".cgats"),
        ("cxf", TableFormat.Cxf, ".cxf"),
        ("xlsx", TableFormat.Xlsx, ".xlsx"),
    ];

    /// <summary>The form of a shelf's table; a violation is noted where there is none of that name.</summary>
    public static TableFormat Read(string format, Violations violations)
    {
        switch (format.Trim().ToLowerInvariant())
        {
            case "" or "csv":
                return TableFormat.Csv;
            case "xlsx":
                return TableFormat.Xlsx;
            default:
                violations.Add("format", $"'{Shown.Of(format)}' is no form of a table; use csv or xlsx.");
                return TableFormat.Csv;
        }
    }

    /// <summary>The form of a table of swatches; a violation is noted where there is none of that name.</summary>
    public static TableFormat ReadForSwatches(string format, Violations violations)
    {
        var word = format.Trim().ToLowerInvariant();
        var known = OfSwatches.FirstOrDefault(known => known.Word == (word.Length == 0 ? "csv" : word));
        if (known.Word is null)
        {
            violations.Add("format", $"'{Shown.Of(format)}' is no form of a table of swatches; use {string.Join(", ", OfSwatches.Select(each => each.Word))}.");
        }

        return known.Format;
    }

    /// <summary>".csv".</summary>
    public static string EndingOf(TableFormat format) => OfSwatches.First(known => known.Format == format).Ending;
}

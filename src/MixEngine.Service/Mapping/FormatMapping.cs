using MixEngine.Interchange;
using MixEngine.Service.Refusals;

namespace MixEngine.Service.Mapping;

/// <summary>Forms of a shelf's table as asked.</summary>
internal static class FormatMapping
{
    /// <summary>The form; a violation is noted where there is none of that name.</summary>
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

    /// <summary>".csv".</summary>
    public static string EndingOf(TableFormat format) => "." + format.ToString().ToLowerInvariant();
}

namespace MixEngine.Interchange;

/// <summary>One table of a CGATS file: its keywords, its fields and its data sets.</summary>
internal sealed class CgatsTable
{
    /// <summary>Keyword, value and line, in the order of the file. A keyword may stand more than once.</summary>
    public List<(string Keyword, string Value, int Line)> Keywords { get; } = [];

    public List<string> Fields { get; } = [];

    public int FieldsLine { get; set; }

    public List<RawRow> Sets { get; } = [];

    public int SetsLine { get; set; }

    /// <summary>The last value of a keyword; empty when it does not stand here.</summary>
    public string Value(string keyword) => Keywords.LastOrDefault(k => k.Keyword.Equals(keyword, StringComparison.OrdinalIgnoreCase)).Value ?? "";
}

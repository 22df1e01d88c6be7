namespace MixEngine.Interchange;

/// <summary>The columns of a swatch table, in CSV, worksheets and CGATS alike.</summary>
internal static class SwatchColumns
{
    public static readonly Column SampleId = new("sample_id", "sample", "id", "patch", "sample no", "no", "swatch");
    public static readonly Column Of = new("of", "recipe", "mix", "sample_name", "name", "paint", "paint name");
    public static readonly Column Film = new("film", "drawdown", "film name");
    public static readonly Column Coats = new("coats", "layers");
    public static readonly Column ThicknessUm = new("thickness_um", "thickness", "film thickness um", "um", "microns");
    public static readonly Column Backing = new("backing", "over", "substrate", "sample backing");
    public static readonly Column Dosing = new("dosing", "measured out");
    public static readonly Column Finish = new("finish", "sheen");
    public static readonly Column Specular = new("specular", "specular mode", "geometry", "measurement geometry");
    public static readonly Column Source = new("source");
    public static readonly Column Date = new("date", "measured on", "measure date");
    public static readonly Column Note = new("note", "notes", "comment", "comments", "remark", "remarks");

    /// <summary>Wavelength of a table with one line for each sample and band.</summary>
    public static readonly Column Nm = new("nm", "wavelength", "wavelength_nm", "lambda", "band");

    /// <summary>Reflectance at <see cref="Nm"/>.</summary>
    public static readonly Column Value = new("value", "reflectance", "reflectance factor", "refl", "factor");

    /// <summary>What describes a swatch besides its id, its subject and its colour.</summary>
    public static readonly IReadOnlyList<Column> About = [Film, Coats, ThicknessUm, Backing, Dosing, Finish, Specular, Source, Date, Note];

    public static readonly IReadOnlyList<Column> All = [SampleId, Of, .. About, .. ColorColumns.All, Nm, Value];
}

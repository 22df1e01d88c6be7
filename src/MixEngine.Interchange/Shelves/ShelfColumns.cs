namespace MixEngine.Interchange;

/// <summary>The columns of a shelf table.</summary>
internal static class ShelfColumns
{
    public static readonly Column Name = new("name", "paint", "paint name", "colour name", "color name", "bottle");
    public static readonly Column Opacity = new("opacity", "hiding", "coverage", "transparency");
    public static readonly Column Range = new("range", "series", "line", "brand", "maker", "manufacturer");
    public static readonly Column Kind = new("kind");
    public static readonly Column Finish = new("finish", "sheen");
    public static readonly Column DropsPerMl = new("drops_per_ml", "drops/ml", "drops");
    public static readonly Column MlLeft = new("ml_left", "ml", "left", "left ml", "remaining ml", "volume ml");
    public static readonly Column Pigments = new("pigments", "pigment", "colour index", "color index", "pigment code", "pigment codes", "ci", "ci names");
    public static readonly Column Notes = new("notes", "note", "comment", "comments", "remark", "remarks");

    public static readonly IReadOnlyList<Column> All = [Name, .. ColorColumns.All, Opacity, Range, Kind, Finish, DropsPerMl, MlLeft, Pigments, Notes];
}

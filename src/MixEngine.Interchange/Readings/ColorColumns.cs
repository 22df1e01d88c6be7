using MixEngine.Colorimetry;

namespace MixEngine.Interchange;

/// <summary>The columns that state a colour, in every kind of table.</summary>
internal static class ColorColumns
{
    public static readonly Column Hex = new("hex", "hex code", "hex colour", "hex color", "colour", "color", "rgb hex", "hex rgb", "html", "html colour", "html color", "web colour", "web color", "srgb", "srgb hex");
    public static readonly Column L = new("L", "Lab L", "CIE L", "CIELAB L", "L star");
    public static readonly Column A = new("a", "Lab a", "CIE a", "CIELAB a", "a star");
    public static readonly Column B = new("b", "Lab b", "CIE b", "CIELAB b", "b star");
    public static readonly Column X = new("X", "XYZ X", "CIE X");
    public static readonly Column Y = new("Y", "XYZ Y", "CIE Y");
    public static readonly Column Z = new("Z", "XYZ Z", "CIE Z");
    public static readonly Column Illuminant = new("illuminant", "light", "light source");
    public static readonly Column Observer = new("observer", "observer degrees", "observer angle");
    public static readonly Column Scale = new("scale", "reflectance scale", "spectral scale", "unit", "units");

    public static readonly IReadOnlyList<Column> All = [Hex, L, A, B, X, Y, Z, Illuminant, Observer, Scale];

    /// <summary>"2", "10", "2 degrees", "2_Degree", "CIE 1931" ... ; null when neither observer.</summary>
    public static Observer? ObserverOf(string text) => Column.KeyOf(text) switch
    {
        "2" or "2deg" or "2degree" or "2degrees" or "2d" or "1931" or "cie1931" or "degree2" => Colorimetry.Observer.Degree2,
        "10" or "10deg" or "10degree" or "10degrees" or "10d" or "1964" or "cie1964" or "degree10" => Colorimetry.Observer.Degree10,
        _ => null,
    };

    /// <summary>The observer as we write it: its field in degrees.</summary>
    public static string WordFor(Observer observer) => observer == Colorimetry.Observer.Degree2 ? "2" : "10";

    /// <summary>"D65", "d 65", "A", "FL11", "F11" ... ; null when we know no such light.</summary>
    public static Illuminant? IlluminantOf(string text)
    {
        string key = Column.KeyOf(text);
        return Colorimetry.Illuminant.All.FirstOrDefault(i => Column.KeyOf(i.Name) == key || key.StartsWith('f') && Column.KeyOf(i.Name) == "fl" + key[1..]);
    }
}

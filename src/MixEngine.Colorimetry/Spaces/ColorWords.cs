namespace MixEngine.Colorimetry;

/// <summary>
/// A colour in plain words, for those who cannot see the swatch or do not trust their screen: "dark dull green".
/// The words are light or dark, dull or bright, and a hue family; their borders in CIELAB are our own choice (common practice, no source).
/// </summary>
/// <remarks>
/// Chroma below 3 is black, grey or white; below 10 it is a tinged grey; below 30 dull; from 60 bright.
/// Lightness below 20 is very dark, below 40 dark, from 65 light, from 82 very light.
/// Orange below lightness 60 is brown unless bright, dark yellow is brown or olive, light red and magenta are pink.
/// </remarks>
public static class ColorWords
{
    private const double NeutralBelowChroma = 3;
    private const double TingedBelowChroma = 10;
    private const double DullBelowChroma = 30;
    private const double BrightFromChroma = 60;

    private const double TurquoiseUpTo = 220;

    // Each family reaches up to its angle; magenta runs through 0 to the beginning of red. Blue ends by a rule of its own, below.
    private static readonly (double UpToDegrees, string Name, string Tinge)[] Families =
    [
        (10, "magenta", "pinkish"),
        (42, "red", "reddish"),
        (72, "orange", "brownish"),
        (108, "yellow", "yellowish"),
        (175, "green", "greenish"),
        (TurquoiseUpTo, "turquoise", "bluish"),
        (325, "purple", "purplish"),
        (360, "magenta", "pinkish"),
    ];

    private static readonly (double UpToDegrees, string Name, string Tinge) Blue = (double.NaN, "blue", "bluish");

    /// <summary>The words for a colour, seen under any white: Lab already refers to it.</summary>
    /// <exception cref="ArgumentException">The colour is not made of finite numbers.</exception>
    public static string Describe(Lab color)
    {
        if (!double.IsFinite(color.L) || !double.IsFinite(color.A) || !double.IsFinite(color.B))
        {
            throw new ArgumentException($"There are no words for {color}: it is not made of numbers.", nameof(color));
        }

        if (color.Chroma < NeutralBelowChroma)
        {
            return Neutral(color.L);
        }

        var hue = Hue.Angle(color.A, color.B);
        var family = hue >= TurquoiseUpTo && hue < BlueUpTo(color.Chroma) ? Blue : Families.First(family => hue < family.UpToDegrees);
        return color.Chroma < TingedBelowChroma
            ? $"{family.Tinge} {Neutral(color.L)}"
            : Join(Lightness(color.L), Vividness(color.Chroma), Name(family.Name, hue, color));
    }

    // Lines of constant blue are bent in CIELAB: the more vivid, the further blue reaches towards purple.
    private static double BlueUpTo(double chroma) => Math.Min(290 + 0.21 * chroma, 320);

    private static string Neutral(double lightness) => lightness switch
    {
        < 12 => "black",
        < 40 => "dark grey",
        < 65 => "grey",
        < 90 => "light grey",
        _ => "white",
    };

    private static string Lightness(double lightness) => lightness switch
    {
        < 20 => "very dark",
        < 40 => "dark",
        < 65 => "",
        < 82 => "light",
        _ => "very light",
    };

    private static string Vividness(double chroma) => chroma switch
    {
        < DullBelowChroma => "dull",
        < BrightFromChroma => "",
        _ => "bright",
    };

    private static string Name(string family, double hue, Lab color) => family switch
    {
        "orange" when color.L < 60 && color.Chroma < BrightFromChroma => "brown",
        "yellow" when color.L < 60 => hue < 85 ? "brown" : "olive",
        "red" or "magenta" when color.L >= 65 => "pink",
        _ => family,
    };

    private static string Join(params string[] words) => string.Join(' ', words.Where(word => word.Length > 0));
}

using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>How one colour lies to another: in size, and in the painter's three directions.</summary>
/// <remarks>
/// The directions are weighted like the terms of CIE 1994 ([CIE15], kL = 1), which is enough to say which one dominates; the size is CIEDE2000.
/// </remarks>
/// <param name="DeltaE00">Size, CIEDE2000.</param>
/// <param name="Lightness">Positive: lighter.</param>
/// <param name="Vividness">Positive: more vivid, negative: duller.</param>
/// <param name="Hue">Size of the change of hue, 0 or more.</param>
/// <param name="Leaning">Towards which of "redder", "yellower", "greener", "bluer" the change points in the a*b* plane.</param>
public sealed record ColorShift(double DeltaE00, double Lightness, double Vividness, double Hue, string Leaning)
{
    // Below this chroma a colour is a near-grey: a change is told by where it leans, not as vivid or dull.
    private const double NearGrey = 6;

    /// <summary>The shift from one colour to another.</summary>
    public static ColorShift Between(Lab from, Lab to)
    {
        var (da, db) = (to.A - from.A, to.B - from.B);
        var chroma = Math.Sqrt(from.Chroma * to.Chroma);
        var dC = to.Chroma - from.Chroma;
        var dH = Math.Sqrt(Math.Max(0, da * da + db * db - dC * dC));
        var (vivid, hue) = (dC / (1 + 0.045 * chroma), dH / (1 + 0.015 * chroma));

        // A near-grey has no brilliance to speak of: what it gains or loses is a leaning.
        if (Math.Max(from.Chroma, to.Chroma) < NearGrey)
        {
            (vivid, hue) = (0, Math.Sqrt(vivid * vivid + hue * hue));
        }

        return new ColorShift(DeltaE2000.Between(from, to), to.L - from.L, vivid, hue, LeaningOf(da, db));
    }

    /// <summary>For example "visibly greener", "slightly lighter and duller", "no visible change".</summary>
    public string Words
    {
        get
        {
            var directions = Directions("lighter", "darker", "more vivid", "duller", Leaning);
            return DeltaE00 < MatchOptions.Unseen || directions.Count == 0
                ? "no visible change"
                : $"{Size} {string.Join(" and ", directions)}";
        }
    }

    /// <summary>The same as a fault: "too dark", "a little too dull and too red".</summary>
    public string FaultWords
    {
        get
        {
            var leaning = Leaning switch { "redder" => "red", "yellower" => "yellow", "greener" => "green", _ => "blue" };
            var directions = Directions("too light", "too dark", "too vivid", "too dull", $"too {leaning}");
            return (DeltaE00 < 2 ? "a little " : DeltaE00 < 8 ? "" : "far ") + string.Join(" and ", directions);
        }
    }

    /// <summary>What would mend it, of a fault: "lighter", "more vivid and greener".</summary>
    public string RemedyWords
    {
        get
        {
            var away = Leaning switch { "redder" => "greener", "yellower" => "bluer", "greener" => "redder", _ => "yellower" };
            return string.Join(" and ", Directions("darker", "lighter", "duller", "more vivid", away));
        }
    }

    // CIEDE2000 of about 1 is what a trained eye just sees side by side.
    private string Size => DeltaE00 switch
    {
        < 1.5 => "slightly",
        < 5 => "visibly",
        _ => "much",
    };

    // The largest direction, and the second where it is more than half as large.
    private List<string> Directions(string lighter, string darker, string vivid, string dull, string leaning)
    {
        (double Size, string Word)[] all =
        [
            (Math.Abs(Lightness), Lightness > 0 ? lighter : darker),
            (Math.Abs(Vividness), Vividness > 0 ? vivid : dull),
            (Hue, leaning),
        ];
        var ordered = all.OrderByDescending(direction => direction.Size).ToArray();
        return [.. ordered.Where((direction, i) => direction.Size > 0 && (i == 0 || (i == 1 && direction.Size > ordered[0].Size / 2))).Select(direction => direction.Word)];
    }

    private static string LeaningOf(double da, double db) =>
        Math.Abs(da) >= Math.Abs(db) ? (da > 0 ? "redder" : "greener") : db > 0 ? "yellower" : "bluer";
}

namespace MixEngine.Colorimetry;

/// <summary>
/// Brings a colour into the sRGB gamut by reducing its OKLCh chroma at constant hue and lightness, until it just fits.
/// Cutting channels instead would shift hue and lightness. In deep blues, where a line of constant hue can leave the gamut and come back,
/// the answer is one of the places where it crosses the border. [Ottosson2020]
/// </summary>
public static class GamutMapping
{
    // After this many halvings the chroma is settled to 1e-15.
    private const int Halvings = 48;

    // What the way from linear sRGB to OKLCh and back may add by rounding. Without it a colour on the very edge of the gamut
    // would be mapped, and near blue, where the gamut is dented, to a visibly duller one.
    private const double Rounding = 1e-14;

    /// <summary>A displayable colour of this hue and lightness, at most as colourful as the given one and on the border of the gamut if that does not fit.</summary>
    /// <param name="color">Any finite colour. A lightness beyond [0, 1] gives black or white.</param>
    /// <returns>Linear sRGB with every channel in [0, 1].</returns>
    public static LinearSrgb ToGamut(OkLCh color)
    {
        if (color.L <= 0)
        {
            return new LinearSrgb(0, 0, 0);
        }

        if (color.L >= 1)
        {
            return new LinearSrgb(1, 1, 1);
        }

        var asGiven = color.ToOkLab().ToLinearSrgb();
        var nearest = new LinearSrgb(Math.Clamp(asGiven.R, 0, 1), Math.Clamp(asGiven.G, 0, 1), Math.Clamp(asGiven.B, 0, 1));
        if (Math.Abs(asGiven.R - nearest.R) + Math.Abs(asGiven.G - nearest.G) + Math.Abs(asGiven.B - nearest.B) < Rounding)
        {
            return nearest;
        }

        // The neutral of this lightness is always inside: halve the way between it and the colour.
        var inside = new OkLab(color.L, 0, 0).ToLinearSrgb();
        double low = 0, high = color.C;
        for (var i = 0; i < Halvings; i++)
        {
            var middle = (low + high) / 2;
            var candidate = (color with { C = middle }).ToOkLab().ToLinearSrgb();
            if (candidate.IsInGamut)
            {
                low = middle;
                inside = candidate;
            }
            else
            {
                high = middle;
            }
        }

        return inside;
    }
}

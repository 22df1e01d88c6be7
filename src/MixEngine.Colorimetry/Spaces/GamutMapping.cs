namespace MixEngine.Colorimetry;

/// <summary>
/// Brings a colour into the sRGB gamut by reducing its OKLCh chroma at constant hue and lightness, until it just fits.
/// Cutting channels instead would shift hue and lightness. [Ottosson2020]
/// </summary>
public static class GamutMapping
{
    // After this many halvings the chroma is settled to 1e-15.
    private const int Halvings = 48;

    /// <summary>The most colourful displayable colour of this hue and lightness, at most as colourful as the given one.</summary>
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
        if (asGiven.IsInGamut)
        {
            return asGiven;
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

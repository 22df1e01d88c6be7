namespace MixEngine.Core;

/// <summary>The black and white chart of [ISO6504-3]: here the black and the white primer, whose white is the standard's 80 %.</summary>
public static class ContrastChart
{
    /// <summary>Contrast ratio after each coat: luminance over black divided by luminance over white, 0 to 1.</summary>
    public static double[] RatiosOf(Coats coats, View view)
    {
        double Luminance(SeenStack stack) => Hidden.Luminance(stack.LabUnder(view));
        var black = coats.Over(Primer.Black.Surface.Stack()).Select(Luminance);
        var white = coats.Over(Primer.White.Surface.Stack()).Select(Luminance);
        return [.. black.Zip(white, (overBlack, overWhite) => overBlack / overWhite)];
    }
}

namespace MixEngine.Colorimetry;

/// <summary>CIE 1994 colour difference [CIE116]. Not symmetric: the weights are those of the standard's chroma.</summary>
public static class DeltaE94
{
    /// <summary>With the weights for graphic arts: kL = 1, K1 = 0.045, K2 = 0.015.</summary>
    public static double GraphicArts(Lab standard, Lab sample) => Between(standard, sample, 1, 0.045, 0.015);

    /// <summary>With the weights for textiles: kL = 2, K1 = 0.048, K2 = 0.014.</summary>
    public static double Textiles(Lab standard, Lab sample) => Between(standard, sample, 2, 0.048, 0.014);

    private static double Between(Lab standard, Lab sample, double kL, double k1, double k2)
    {
        var step = LChStep.Between(standard, sample);
        var l = step.L / kL;
        var c = step.C / (1 + k1 * standard.Chroma);
        var h2 = step.HSquared / ((1 + k2 * standard.Chroma) * (1 + k2 * standard.Chroma));
        return Math.Sqrt(l * l + c * c + h2);
    }
}

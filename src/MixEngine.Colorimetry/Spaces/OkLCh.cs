namespace MixEngine.Colorimetry;

/// <summary>OKLab in cylinder coordinates [Ottosson2020].</summary>
/// <param name="L">Lightness, 0 to 1.</param>
/// <param name="C">Chroma, 0 to about 0.4.</param>
/// <param name="HueDegrees">Hue angle in [0, 360), or nothing for a neutral.</param>
public readonly record struct OkLCh(double L, double C, double? HueDegrees)
{
    /// <summary>The same colour as OKLab; without a hue a = b = 0.</summary>
    public OkLab ToOkLab()
    {
        var (a, b) = Hue.Opponents(C, HueDegrees);
        return new OkLab(L, a, b);
    }
}

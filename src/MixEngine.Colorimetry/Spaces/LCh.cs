namespace MixEngine.Colorimetry;

/// <summary>CIELAB in cylinder coordinates [CIE15].</summary>
/// <param name="L">Lightness, 0 to 100.</param>
/// <param name="C">Chroma, not negative.</param>
/// <param name="HueDegrees">Hue angle in [0, 360), or nothing for a neutral.</param>
public readonly record struct LCh(double L, double C, double? HueDegrees)
{
    /// <summary>The same colour as L*a*b*; without a hue a = b = 0.</summary>
    public Lab ToLab()
    {
        var (a, b) = Hue.Opponents(C, HueDegrees);
        return new Lab(L, a, b);
    }
}

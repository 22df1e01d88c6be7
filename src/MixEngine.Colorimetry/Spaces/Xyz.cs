using System.Globalization;

namespace MixEngine.Colorimetry;

/// <summary>CIE tristimulus values, scaled so that the perfect white has Y = 100 [CIE15].</summary>
/// <param name="X">About 0 to 110.</param>
/// <param name="Y">Luminance factor in percent, 0 to 100 for a surface.</param>
/// <param name="Z">About 0 to 125, depending on the light.</param>
public readonly record struct Xyz(double X, double Y, double Z)
{
    /// <summary>Whether all three are numbers.</summary>
    public bool IsFinite => double.IsFinite(X) && double.IsFinite(Y) && double.IsFinite(Z);

    /// <summary>For messages: "XYZ(41.24, 21.26, 1.93)".</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"XYZ({X:0.####}, {Y:0.####}, {Z:0.####})");

    /// <summary>The neutral of a given luminance factor: the white, dimmed.</summary>
    public static Xyz Neutral(double y, Xyz white) => new(white.X / white.Y * y, y, white.Z / white.Y * y);
}

namespace MixEngine.Colorimetry;

/// <summary>
/// Predicts the colour that looks the same under another white: full adaptation, the response of each cone-like channel
/// scaled by the ratio of the whites (von Kries).
/// </summary>
public sealed class ChromaticAdaptation
{
    private readonly Matrix3 _toCones;
    private readonly Matrix3 _fromCones;

    private ChromaticAdaptation(string name, Matrix3 toCones)
    {
        Name = name;
        _toCones = toCones;
        _fromCones = toCones.Inverse();
    }

    /// <summary>CAT16 [Li2017], the default of the engine.</summary>
    public static ChromaticAdaptation Cat16 { get; } = new("CAT16", new Matrix3(
        0.401288, 0.650173, -0.051461,
        -0.250268, 1.204414, 0.045854,
        -0.002079, 0.048952, 0.953127));

    /// <summary>Linear Bradford, the one of ICC profiles [Lam1985].</summary>
    public static ChromaticAdaptation Bradford { get; } = new("Bradford", new Matrix3(
        0.8951, 0.2664, -0.1614,
        -0.7502, 1.7135, 0.0367,
        0.0389, -0.0685, 1.0296));

    /// <summary>"CAT16" or "Bradford".</summary>
    public string Name { get; }

    internal Matrix3 ToCones => _toCones;

    internal Matrix3 FromCones => _fromCones;

    /// <summary>The corresponding colour under another white.</summary>
    /// <param name="xyz">The colour under the first white.</param>
    /// <param name="fromWhite">The first white.</param>
    /// <param name="toWhite">The second white.</param>
    public Xyz Adapt(Xyz xyz, Xyz fromWhite, Xyz toWhite)
    {
        if (fromWhite == toWhite)
        {
            return xyz;
        }

        var (r, g, b) = _toCones.Apply(xyz.X, xyz.Y, xyz.Z);
        var (r1, g1, b1) = _toCones.Apply(fromWhite.X, fromWhite.Y, fromWhite.Z);
        var (r2, g2, b2) = _toCones.Apply(toWhite.X, toWhite.Y, toWhite.Z);
        var (x, y, z) = _fromCones.Apply(r * r2 / r1, g * g2 / g1, b * b2 / b1);
        return new Xyz(x, y, z);
    }

    /// <summary>The name.</summary>
    public override string ToString() => Name;
}

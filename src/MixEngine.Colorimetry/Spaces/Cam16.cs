namespace MixEngine.Colorimetry;

/// <summary>The appearance correlates of CAM16 [Li2017].</summary>
/// <param name="J">Lightness: 0 black, 100 the white.</param>
/// <param name="C">Chroma.</param>
/// <param name="HueDegrees">Hue angle in [0, 360); nothing for a neutral.</param>
/// <param name="Q">Brightness.</param>
/// <param name="M">Colourfulness.</param>
/// <param name="S">Saturation.</param>
/// <param name="H">Hue composition from 0 (red) by 100 (yellow), 200 (green), 300 (blue) to 400; nothing for a neutral.</param>
public readonly record struct Cam16(double J, double C, double? HueDegrees, double Q, double M, double S, double? H)
{
    /// <summary>Below this colourfulness a colour counts as neutral and has no hue.</summary>
    public const double SmallestColorfulness = 0.01;

    // Unique hues: angle, eccentricity and hue composition. (Li 2017, Table A2)
    private static readonly double[] UniqueAngle = [20.14, 90, 164.25, 237.53, 380.14];
    private static readonly double[] UniqueEccentricity = [0.8, 0.7, 1.0, 1.2, 0.8];

    // The paper adds 0.1 to each compressed response and takes 0.305 from the achromatic one. The two cancel everywhere
    // except in the denominator of t, where 0.1 * (1 + 1 + 21/20) = 0.305 stays; so we add it there only.
    private const double OffsetOfSum = 0.305;

    // Black has 0.305 here. Only colours that no light can have come lower; they get a defined, very large chroma.
    private const double SmallestSum = 0.01;

    /// <summary>How a colour appears. The variables and their order are those of the paper's appendix.</summary>
    /// <remarks>Colours darker than black (which only arise outside the object-colour solid) appear black.</remarks>
    public static Cam16 FromXyz(Xyz xyz, Cam16ViewingConditions view)
    {
        // Cone responses, adapted and compressed. (steps 1 to 3)
        var (r, g, b) = ChromaticAdaptation.Cat16.ToCones.Apply(xyz.X, xyz.Y, xyz.Z);
        var ra = Compress(r * view.GainR, view.LuminanceLevel);
        var ga = Compress(g * view.GainG, view.LuminanceLevel);
        var ba = Compress(b * view.GainB, view.LuminanceLevel);

        // Opponents and hue. (step 4)
        var redGreen = ra - 12 * ga / 11 + ba / 11;
        var yellowBlue = (ra + ga - 2 * ba) / 9;
        var hue = Hue.Angle(redGreen, yellowBlue);

        // Lightness and brightness. (steps 6 to 8)
        var (_, c, nc) = view.Surround;
        var achromatic = Math.Max(0, Achromatic(ra, ga, ba) * view.Induction);
        var j = 100 * Math.Pow(achromatic / view.AchromaticWhite, c * view.Z);
        var q = 4 / c * Math.Sqrt(j / 100) * (view.AchromaticWhite + 4) * FourthRoot(view);

        // Chroma, colourfulness and saturation. (step 9)
        var t = 50000.0 / 13 * nc * view.Induction * Eccentricity(hue) * Math.Sqrt(redGreen * redGreen + yellowBlue * yellowBlue)
            / Math.Max(SmallestSum, ra + ga + 21 * ba / 20 + OffsetOfSum);
        var chroma = Math.Pow(t, 0.9) * Math.Sqrt(j / 100) * ChromaFactor(view);
        var m = chroma * FourthRoot(view);
        var s = q > 0 ? 100 * Math.Sqrt(m / q) : 0;

        return m < SmallestColorfulness
            ? new Cam16(j, chroma, null, q, m, s, null)
            : new Cam16(j, chroma, hue, q, m, s, HueComposition(hue));
    }

    /// <summary>Back to tristimulus values, from J, C and the hue. (the inverse model of the paper)</summary>
    public Xyz ToXyz(Cam16ViewingConditions view)
    {
        if (J <= 0)
        {
            return new Xyz(0, 0, 0);
        }

        // The achromatic response and the sum of opponents that C stands for.
        var (_, c, nc) = view.Surround;
        var achromatic = view.AchromaticWhite * Math.Pow(J / 100, 1 / (c * view.Z)) / view.Induction;
        var t = HueDegrees is null ? 0 : Math.Pow(C / (Math.Sqrt(J / 100) * ChromaFactor(view)), 1 / 0.9);
        var hue = HueDegrees ?? 0;
        var (sin, cos) = Math.SinCos(hue * (Math.PI / 180));

        // Opponents: the compressed responses are linear in them, so t fixes their length.
        var p1 = 50000.0 / 13 * nc * view.Induction * Eccentricity(hue);
        var length = 23 * (achromatic + OffsetOfSum) * t / Math.Max(SmallestSum * p1, 23 * p1 + 11 * t * cos + 108 * t * sin);
        var (redGreen, yellowBlue) = (length * cos, length * sin);

        // Compressed responses, then the way back through compression and adaptation.
        var ra = (460 * achromatic + 451 * redGreen + 288 * yellowBlue) / 1403;
        var ga = (460 * achromatic - 891 * redGreen - 261 * yellowBlue) / 1403;
        var ba = (460 * achromatic - 220 * redGreen - 6300 * yellowBlue) / 1403;
        var (x, y, z) = ChromaticAdaptation.Cat16.FromCones.Apply(
            Expand(ra, view.LuminanceLevel) / view.GainR,
            Expand(ga, view.LuminanceLevel) / view.GainG,
            Expand(ba, view.LuminanceLevel) / view.GainB);
        return new Xyz(x, y, z);
    }

    internal static double Compress(double response, double luminanceLevel)
    {
        var x = Math.Pow(luminanceLevel * Math.Abs(response) / 100, 0.42);
        return Math.CopySign(400 * x / (x + 27.13), response);
    }

    internal static double Achromatic(double ra, double ga, double ba) => 2 * ra + ga + ba / 20;

    private static double Expand(double compressed, double luminanceLevel)
    {
        // 400 is the ceiling of the compression; what lies above it has no origin and takes a very bright one.
        var size = Math.Min(Math.Abs(compressed), 399.999);
        var response = 100 / luminanceLevel * Math.Pow(27.13 * size / (400 - size), 1 / 0.42);
        return Math.CopySign(response, compressed);
    }

    private static double FourthRoot(Cam16ViewingConditions view) => Math.Sqrt(Math.Sqrt(view.LuminanceLevel));

    private static double ChromaFactor(Cam16ViewingConditions view) => Math.Pow(1.64 - Math.Pow(0.29, view.BackgroundShare), 0.73);

    private static double Eccentricity(double hue) => (Math.Cos(hue * (Math.PI / 180) + 2) + 3.8) / 4;

    private static double HueComposition(double hue)
    {
        var h = hue < UniqueAngle[0] ? hue + 360 : hue;
        var i = 0;
        while (h >= UniqueAngle[i + 1])
        {
            i++;
        }

        var from = (h - UniqueAngle[i]) / UniqueEccentricity[i];
        var to = (UniqueAngle[i + 1] - h) / UniqueEccentricity[i + 1];
        return 100 * i + 100 * from / (from + to);
    }
}

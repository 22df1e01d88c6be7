namespace MixEngine.Colorimetry;

/// <summary>The circumstances that CAM16 wants to know, and what follows from them for every colour [Li2017].</summary>
public sealed class Cam16ViewingConditions
{
    /// <summary>Computes what all colours under these conditions share.</summary>
    /// <param name="white">Tristimulus values of the adopted white.</param>
    /// <param name="adaptingLuminance">L_A in cd/m2, above 0: about a fifth of the luminance of a white sheet.</param>
    /// <param name="background">Y_b, the luminance factor of the background in percent, above 0; mid-grey is 20.</param>
    /// <param name="surround">The room.</param>
    /// <exception cref="ArgumentOutOfRangeException">A luminance is not a number above 0.</exception>
    public Cam16ViewingConditions(Xyz white, double adaptingLuminance, double background, Surround surround)
    {
        RefuseUnlessPositive(white.Y, nameof(white));
        RefuseUnlessPositive(adaptingLuminance, nameof(adaptingLuminance));
        RefuseUnlessPositive(background, nameof(background));
        White = white;
        Surround = surround;

        // Degree of adaptation, and the gains of the cone channels. (step 0 of the paper's appendix)
        var (r, g, b) = ChromaticAdaptation.Cat16.ToCones.Apply(white.X, white.Y, white.Z);
        var d = Math.Clamp(surround.F * (1 - Math.Exp((-adaptingLuminance - 42) / 92) / 3.6), 0, 1);
        GainR = d * white.Y / r + 1 - d;
        GainG = d * white.Y / g + 1 - d;
        GainB = d * white.Y / b + 1 - d;

        // Luminance level and induction factors.
        var k = 1 / (5 * adaptingLuminance + 1);
        var k4 = k * k * k * k;
        LuminanceLevel = 0.2 * k4 * (5 * adaptingLuminance) + 0.1 * (1 - k4) * (1 - k4) * Math.Cbrt(5 * adaptingLuminance);
        BackgroundShare = background / white.Y;
        Z = 1.48 + Math.Sqrt(BackgroundShare);
        Induction = 0.725 * Math.Pow(1 / BackgroundShare, 0.2);

        // Achromatic response of the white.
        AchromaticWhite = Cam16.Achromatic(
            Cam16.Compress(GainR * r, LuminanceLevel),
            Cam16.Compress(GainG * g, LuminanceLevel),
            Cam16.Compress(GainB * b, LuminanceLevel)) * Induction;
    }

    /// <summary>The adopted white.</summary>
    public Xyz White { get; }

    /// <summary>The room.</summary>
    public Surround Surround { get; }

    internal double GainR { get; }

    internal double GainG { get; }

    internal double GainB { get; }

    /// <summary>F_L.</summary>
    internal double LuminanceLevel { get; }

    /// <summary>n.</summary>
    internal double BackgroundShare { get; }

    /// <summary>z.</summary>
    internal double Z { get; }

    /// <summary>N_bb = N_cb.</summary>
    internal double Induction { get; }

    /// <summary>A_w.</summary>
    internal double AchromaticWhite { get; }

    /// <summary>
    /// A painted model on a lit desk: 500 lx (the practical appraisal level of [ISO3664]), that is L_A = 500 * 0.2 / pi,
    /// before a mid-grey background in a lit room.
    /// </summary>
    public static Cam16ViewingConditions Desk(Xyz white) => new(white, 500 * 0.2 / Math.PI, 20, Surround.Average);

    private static void RefuseUnlessPositive(double value, string name)
    {
        if (!(value > 0 && double.IsFinite(value)))
        {
            throw new ArgumentOutOfRangeException(name, value, "CAM16 needs a luminance that is a number above 0.");
        }
    }
}

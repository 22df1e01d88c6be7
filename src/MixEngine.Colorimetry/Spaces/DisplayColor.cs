namespace MixEngine.Colorimetry;

/// <summary>
/// What a screen can show of a colour, and whether that is the colour itself. It is for the eye only:
/// a mapped code is never fed back into a computation.
/// </summary>
/// <param name="Hex">The colour code to show.</param>
/// <param name="InGamut">False when the true colour is more vivid (or lighter) than sRGB can show.</param>
public readonly record struct DisplayColor(HexColor Hex, bool InGamut)
{
    // Half a step of an 8-bit channel: what rounding to a colour code changes anyway.
    private const double HalfStep = 0.5 / 255;

    /// <summary>From tristimulus values under any light, adapted to the D65 of the screen by CAT16.</summary>
    /// <param name="xyz">The colour.</param>
    /// <param name="white">The white of its light and observer.</param>
    /// <exception cref="ArgumentException">A value is not finite.</exception>
    public static DisplayColor From(Xyz xyz, Xyz white)
    {
        if (!xyz.IsFinite || !white.IsFinite)
        {
            throw new ArgumentException($"A colour to show must be made of numbers, but it is {xyz} under the white {white}.", nameof(xyz));
        }

        var screenWhite = TristimulusWeights.For(ViewingCondition.Default).White;
        var adapted = ChromaticAdaptation.Cat16.Adapt(xyz, white, screenWhite);
        var linear = LinearSrgb.FromXyz(adapted, screenWhite);
        var encoded = linear.ToSrgb();
        if (Fits(encoded.R) && Fits(encoded.G) && Fits(encoded.B))
        {
            return new DisplayColor(encoded.ToHex(), true);
        }

        var mapped = GamutMapping.ToGamut(OkLab.FromLinearSrgb(linear).ToOkLCh());
        return new DisplayColor(mapped.ToSrgb().ToHex(), false);
    }

    private static bool Fits(double channel) => channel is >= -HalfStep and <= 1 + HalfStep;
}

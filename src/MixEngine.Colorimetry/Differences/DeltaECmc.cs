namespace MixEngine.Colorimetry;

/// <summary>CMC(l:c) colour difference [ISO105-J03]. Not symmetric: the weights are those of the standard.</summary>
public static class DeltaECmc
{
    /// <summary>The difference of a sample from a standard.</summary>
    /// <param name="standard">The colour aimed at.</param>
    /// <param name="sample">The colour reached.</param>
    /// <param name="l">Tolerance for lightness, above 0: 2 judges acceptability, 1 perceptibility.</param>
    /// <param name="c">Tolerance for chroma, above 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">l or c is not above 0.</exception>
    public static double Between(Lab standard, Lab sample, double l = 2, double c = 1)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(l);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(c);
        var chroma = standard.Chroma;
        var hue = Hue.Angle(standard.A, standard.B);

        // Weights at the standard.
        var sL = standard.L < 16 ? 0.511 : 0.040975 * standard.L / (1 + 0.01765 * standard.L);
        var sC = 0.0638 * chroma / (1 + 0.0131 * chroma) + 0.638;
        var c4 = chroma * chroma * chroma * chroma;
        var f = Math.Sqrt(c4 / (c4 + 1900));
        var t = hue is >= 164 and <= 345
            ? 0.56 + Math.Abs(0.2 * Math.Cos((hue + 168) * (Math.PI / 180)))
            : 0.36 + Math.Abs(0.4 * Math.Cos((hue + 35) * (Math.PI / 180)));
        var sH = sC * (f * t + 1 - f);

        var step = LChStep.Between(standard, sample);
        var dL = step.L / (l * sL);
        var dC = step.C / (c * sC);
        return Math.Sqrt(dL * dL + dC * dC + step.HSquared / (sH * sH));
    }
}

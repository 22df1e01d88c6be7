namespace MixEngine.Core;

/// <summary>
/// Kubelka-Munk theory of one band: two diffuse fluxes in a film that absorbs (K) and scatters (S) [KubelkaMunk1931], [Kubelka1948].
/// All reflectances and transmittances are internal (below the surface) and lie in 0 to 1.
/// </summary>
/// <remarks>K and S share one unit, 1/length; a thickness X has that length as its unit.</remarks>
public static class KubelkaMunk
{
    /// <summary>Reflectance R∞ of a film so thick that nothing beneath it shows.</summary>
    /// <param name="k">Absorption, 0 or more.</param>
    /// <param name="s">Scattering, 0 or more.</param>
    /// <returns>0 to 1. With S = 0 and K &gt; 0 it is 0; for K = S = 0 there is no such film and the answer is NaN-free 0: nothing comes back from an endless clear layer.</returns>
    public static double OpaqueReflectance(double k, double s)
    {
        // R∞ = 1 / (1 + q + √(q(q + 2))), q = K/S: the form without cancellation, multiplied through by S so that S = 0 needs no limit.
        var sum = k + s + Math.Sqrt(k * (k + 2 * s));
        return sum > 0 ? s / sum : 0;
    }

    /// <summary>The ratio q = K/S of a hiding film of reflectance R: q = (1 - R)² / (2R).</summary>
    /// <param name="reflectance">Above 0, at most 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside (0, 1]: no finite ratio exists.</exception>
    public static double AbsorptionToScattering(double reflectance)
    {
        if (!(reflectance is > 0 and <= 1))
        {
            throw new ArgumentOutOfRangeException(nameof(reflectance), reflectance, "A hiding film's reflectance lies above 0 and is at most 1.");
        }

        return (1 - reflectance) * (1 - reflectance) / (2 * reflectance);
    }

    /// <summary>Reflectance R0 over a perfect black, and transmittance T, of a film of thickness X.</summary>
    /// <remarks>
    /// With β = √(K(K + 2S)) (= bS in the textbook form) and shc = sinh(βX)/β:
    /// R0 = S·shc / ((K+S)·shc + cosh βX), T = 1 / ((K+S)·shc + cosh βX) [Kubelka1948].
    /// This holds for S = 0 (Beer: T = exp(-KX)) and K = 0 (R0 = SX/(1+SX)) alike; both are scaled by exp(-βX) so that no thickness overflows.
    /// </remarks>
    public static (double R0, double T) Film(double k, double s, double thickness)
    {
        var beta = Math.Sqrt(k * (k + 2 * s));
        var y = beta * thickness;

        // Scale by exp(-y): for small y the series of sinh avoids 0/0, above it the exponentials are exact.
        double decay, shc, cosh;
        if (y < 1e-4)
        {
            decay = Math.Exp(-y);
            shc = decay * thickness * (1 + y * y / 6);
            cosh = decay * (1 + y * y / 2);
        }
        else
        {
            decay = Math.Exp(-y);
            var twice = decay * decay;
            shc = (y < 1 ? Math.Sinh(y) * decay : (1 - twice) / 2) / beta;
            cosh = (1 + twice) / 2;
        }

        var denominator = (k + s) * shc + cosh;
        return (s * shc / denominator, decay / denominator);
    }

    /// <summary>Reflectance of a film (R0, T) over a backing of reflectance Rg: R = R0 + T²Rg / (1 - R0·Rg) [Kubelka1948].</summary>
    public static double Over(double r0, double t, double backing)
    {
        // R0·Rg reaches 1 only for a perfect white over a perfect white, where nothing is lost.
        var loss = 1 - r0 * backing;
        return loss > 0 ? r0 + t * t * backing / loss : 1;
    }

    /// <summary>Reflectance of a film of thickness X over a backing.</summary>
    public static double FilmOver(double k, double s, double thickness, double backing)
    {
        var (r0, t) = Film(k, s, thickness);
        return Over(r0, t, backing);
    }

    /// <summary>
    /// The film behind a drawdown: from its reflectance over a black and over a white backing to its absorbing and scattering power.
    /// R0 = (Rw·Gb - Rb·Gw) / ((Rw - Rb)·Gw·Gb + Gb - Gw) [Kubelka1948].
    /// </summary>
    /// <param name="overBlack">Reflectance Rb of the film over the black backing.</param>
    /// <param name="overWhite">Reflectance Rw of the same film over the white backing.</param>
    /// <param name="black">Reflectance Gb of the bare black backing.</param>
    /// <param name="white">Reflectance Gw of the bare white backing, above Gb.</param>
    /// <returns>KX and SX, without unit; null where no film of real K, S ≥ 0 gives these readings (the film looks darker over white than over black, or clearer than no film).</returns>
    public static (double AbsorbingPower, double ScatteringPower)? FilmFromDrawdown(double overBlack, double overWhite, double black, double white)
    {
        if (!(white > black))
        {
            throw new ArgumentException($"The white backing ({white}) must reflect more than the black one ({black}).", nameof(white));
        }

        var r0 = (overWhite * black - overBlack * white) / ((overWhite - overBlack) * white * black + black - white);
        if (!(r0 is >= 0 and < 1))
        {
            return null;
        }

        // The transmittance follows from the backing that shows it best, the white one: T² = (R - R0)(1 - R0·Rg)/Rg.
        var t2 = (overWhite - r0) * (1 - r0 * white) / white;
        if (!(t2 is > 0 and <= 1))
        {
            return null;
        }

        return FilmFromReflectanceAndTransmittance(r0, Math.Sqrt(t2));
    }

    /// <summary>KX and SX of a film of reflectance R0 over black and transmittance T; null where R0 + T &gt; 1, which no film can do.</summary>
    public static (double AbsorbingPower, double ScatteringPower)? FilmFromReflectanceAndTransmittance(double r0, double t)
    {
        if (!(r0 >= 0 && t > 0 && r0 + t <= 1 + 1e-12))
        {
            return null;
        }

        if (r0 == 0)
        {
            // Nothing scatters: Beer's law alone.
            return (-Math.Log(t), 0);
        }

        // a = 1 + K/S = (1 + R0² - T²)/(2·R0); a - 1 is written as ((1-R0)² - T²)/(2·R0) so that a nearly white film keeps its digits.
        var aMinus1 = Math.Max(0, ((1 - r0 - t) * (1 - r0 + t)) / (2 * r0));
        var b = Math.Sqrt(aMinus1 * (aMinus1 + 2));

        // R0/T = sinh(bSX)/b.
        var scattering = b < 1e-9 ? r0 / t : Math.Asinh(b * r0 / t) / b;
        return (aMinus1 * scattering, scattering);
    }
}

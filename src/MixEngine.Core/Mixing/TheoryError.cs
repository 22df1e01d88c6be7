namespace MixEngine.Core;

/// <summary>What the two-constant theory leaves unexplained in a mixture whose paints are known.</summary>
/// <remarks>
/// Computed from measured mixtures of hand-made oil paints [Geldof2018]: mixtures disagree with the theory mostly in the strength of their
/// paints (dispersion, flocculation, crowding), little in the shape of the spectrum. The remaining shape is
/// <see cref="ExpectedError.ModelResidual"/>.
/// </remarks>
public static class TheoryError
{
    /// <summary>Standard deviation of ln(strength) of one paint against another from mixture to mixture.</summary>
    public const double Strength = 0.1;

    /// <summary>
    /// The same where a mixture is predicted, not explained: wider, because the fit has chosen the optics that need least of it.
    /// Set so that the stated 95 % holds for measured mixtures left out of the fit (benchmarks/MixEngine.Accuracy).
    /// </summary>
    public const double StrengthUnseen = 0.2;

    /// <summary>Standard deviation of ln(dose) of one part: what drops scatter, and what strength does.</summary>
    /// <remarks>Strength is relative, so each of two paints carries half its variance.</remarks>
    public static double DoseScatter(Part part)
    {
        var drops = DropScatter.Of(part);
        return part.Paint.Kind == PaintKind.Paint ? Math.Sqrt(drops * drops + StrengthUnseen * StrengthUnseen / 2) : drops;
    }
}

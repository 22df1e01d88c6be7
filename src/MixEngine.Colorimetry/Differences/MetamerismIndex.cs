namespace MixEngine.Colorimetry;

/// <summary>
/// Special metamerism index for a change of illuminant [CIE15]: how far two samples that match under one light come apart under another,
/// as CIEDE2000. A rest of difference under the first light is taken out by scaling X, Y and Z.
/// </summary>
public static class MetamerismIndex
{
    /// <summary>The index; 0 for samples of the same reflectance.</summary>
    /// <param name="standard">Reflectance of the one.</param>
    /// <param name="sample">Reflectance of the other, the one that is scaled.</param>
    /// <param name="reference">Light and eye under which they match.</param>
    /// <param name="test">The other light; the same eye.</param>
    public static double Of(Reflectance standard, Reflectance sample, ViewingCondition reference, ViewingCondition test)
    {
        // What is left between them under the reference light, as ratios.
        var one = TristimulusWeights.For(reference);
        var (s, p) = (one.ToXyz(standard), one.ToXyz(sample));

        // Under the test light the sample is scaled by them. (multiplicative correction)
        var other = TristimulusWeights.For(test);
        var (t, q) = (other.ToXyz(standard), other.ToXyz(sample));
        var corrected = new Xyz(Scaled(q.X, s.X, p.X), Scaled(q.Y, s.Y, p.Y), Scaled(q.Z, s.Z, p.Z));
        return DeltaE2000.Between(Lab.FromXyz(t, other.White), Lab.FromXyz(corrected, other.White));
    }

    // A perfect black has nothing to scale.
    private static double Scaled(double value, double standard, double sample) => sample > 0 ? value * standard / sample : value;
}

using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>
/// What a match is to look like: a colour under one light, or a reflectance.
/// </summary>
/// <remarks>
/// A colour alone does not say how it looks under another light. Where that is asked, the smoothest reflectance with the
/// colour stands in for it [Burns2020]; <see cref="IsMeasured"/> tells the two apart.
/// </remarks>
public sealed class MatchTarget
{
    private readonly ViewingCondition? _statedFor;
    private readonly Lab _stated;

    private MatchTarget(Reflectance reflectance, ViewingCondition? statedFor, Lab stated, double outsideBy)
    {
        Reflectance = reflectance;
        _statedFor = statedFor;
        _stated = stated;
        OutsideSurfaceColorsBy = outsideBy;
    }

    /// <summary>The reflectance aimed at: as measured, or the smoothest with the colour.</summary>
    public Reflectance Reflectance { get; }

    /// <summary>Whether <see cref="Reflectance"/> was given, not made up from a colour.</summary>
    public bool IsMeasured => _statedFor is null;

    /// <summary>How far (CIEDE2000) the colour lies from anything that a surface can show; 0 for nearly all.</summary>
    public double OutsideSurfaceColorsBy { get; }

    /// <summary>A colour under a light.</summary>
    /// <exception cref="ArgumentException">A value is not a finite number.</exception>
    public static MatchTarget OfColor(Xyz color, ViewingCondition condition) =>
        OfLab(Lab.FromXyz(color, TristimulusWeights.For(condition).White), condition);

    /// <summary>A colour under a light.</summary>
    /// <exception cref="ArgumentException">A value is not a finite number.</exception>
    public static MatchTarget OfLab(Lab lab, ViewingCondition condition)
    {
        if (!double.IsFinite(lab.L) || !double.IsFinite(lab.A) || !double.IsFinite(lab.B))
        {
            throw new ArgumentException($"The target is {lab}; three finite numbers are needed.", nameof(lab));
        }

        var smoothest = ReflectanceFromColor.Reconstruct(lab.ToXyz(TristimulusWeights.For(condition).White), condition);
        return new MatchTarget(smoothest.Reflectance, condition, lab, smoothest.Exact ? 0 : smoothest.DeltaE00);
    }

    /// <summary>A measured reflectance.</summary>
    public static MatchTarget OfReflectance(Reflectance reflectance) => new(reflectance, null, default, 0);

    /// <summary>The target's colour under a light: as stated where it was stated for this very light.</summary>
    public Lab Under(ViewingCondition condition)
    {
        if (condition == _statedFor)
        {
            return _stated;
        }

        var weights = TristimulusWeights.For(condition);
        return Lab.FromXyz(weights.ToXyz(Reflectance), weights.White);
    }
}

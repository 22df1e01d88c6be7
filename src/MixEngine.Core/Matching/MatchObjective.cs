using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>What is made small: the difference from the target under one light, or under several taken together.</summary>
internal sealed class MatchObjective
{
    private readonly LightRule _rule;

    public MatchObjective(MatchTarget target, MatchOptions options)
    {
        _rule = options.LightRule;
        var view = options.View.Condition;
        var asked = options.Lights.Count > 0 ? options.Lights : [new LightShare(view.Illuminant)];
        var sum = asked.Sum(light => light.Weight);
        Lights = [.. asked.Select(light =>
        {
            var condition = view with { Illuminant = light.Light };
            return new ObjectiveLight(condition, TristimulusWeights.For(condition), target.Under(condition), light.Weight / sum);
        })];
    }

    /// <summary>The lights with the target's colour under each.</summary>
    public ObjectiveLight[] Lights { get; }

    /// <summary>The difference of what is seen from the target, CIEDE2000.</summary>
    /// <remarks>
    /// Rounded to nine decimals, far below what any eye or instrument tells apart, so that equal recipes are equal in whichever order
    /// their paints are added up.
    /// </remarks>
    public double DifferenceOf(ReadOnlySpan<double> seen)
    {
        var (worst, mean) = (0.0, 0.0);
        foreach (var light in Lights)
        {
            var difference = light.DifferenceOf(seen);
            worst = Math.Max(worst, difference);
            mean += light.Share * difference;
        }

        return Math.Round(_rule == LightRule.Worst ? worst : mean, 9);
    }

    /// <summary>How far a recipe may be off under one light, at most, when all lights together allow a difference.</summary>
    public double RadiusUnder(ObjectiveLight light, double difference) =>
        (_rule == LightRule.Worst ? difference : difference / light.Share) + 1e-8;
}

/// <summary>One light of the objective.</summary>
internal sealed record ObjectiveLight(ViewingCondition Condition, TristimulusWeights Weights, Lab Aim, double Share)
{
    /// <summary>The difference of what is seen from the target under this light, CIEDE2000.</summary>
    public double DifferenceOf(ReadOnlySpan<double> seen) =>
        DeltaE2000.Between(Aim, Lab.FromXyz(Weights.ToXyz(seen), Weights.White));
}

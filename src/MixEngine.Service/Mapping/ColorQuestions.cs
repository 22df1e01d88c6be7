using MixEngine.Colorimetry;
using MixEngine.Interchange;
using MixEngine.Service.Refusals;
using MixEngine.V1;

namespace MixEngine.Service.Mapping;

/// <summary>Questions about colours alone, for which no shelf is needed.</summary>
internal static class ColorQuestions
{
    /// <summary>How different two colours look.</summary>
    /// <exception cref="Refusal">One of them is no colour.</exception>
    public static DifferenceResponse Answer(DifferenceRequest request)
    {
        var violations = new Violations();
        var condition = ViewMapping.Read(request.View, violations).Condition;
        var first = Read(request.First, "first", condition, violations);
        var second = Read(request.Second, "second", condition, violations);
        violations.ThrowIfAny();
        return new DifferenceResponse
        {
            First = ColorMapping.Write(first, condition),
            Second = ColorMapping.Write(second, condition),
            DeltaE00 = DeltaE2000.Between(first, second),
        };
    }

    /// <summary>A colour in words.</summary>
    /// <exception cref="Refusal">It is no colour.</exception>
    public static DescribeResponse Answer(DescribeRequest request)
    {
        var violations = new Violations();
        var condition = ViewMapping.Read(request.View, violations).Condition;
        var color = Read(request.Color, "color", condition, violations);
        violations.ThrowIfAny();
        return new DescribeResponse { Color = ColorMapping.Write(color, condition) };
    }

    // Seen as it was stated, a colour is itself; under another light it is what the smoothest reflectance of that colour looks like there.
    private static Colorimetry.Lab Read(ColorInput? input, string field, ViewingCondition condition, Violations violations) =>
        ColorInputMapping.Read(input, field, condition, violations) switch
        {
            null => default,
            LabReading stated when stated.Condition == condition => stated.Lab,
            HexReading { Hex: var hex } when condition == ViewingCondition.Default => Colorimetry.Lab.FromXyz(hex.ToXyz(), TristimulusWeights.For(condition).White),
            var reading => MatchMapping.TargetOf(reading).Under(condition),
        };
}

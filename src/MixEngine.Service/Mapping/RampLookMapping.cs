using MixEngine.Colorimetry;
using MixEngine.Core;
using MixEngine.Service.Refusals;

namespace MixEngine.Service.Mapping;

/// <summary>Ramps seen in another way, as asked and as answered.</summary>
internal static class RampLookMapping
{
    /// <summary>Most lamps, or eyes, at once.</summary>
    public const int MostLooks = 24;

    public static IReadOnlyList<ColorVision> ReadEyes(IReadOnlyList<V1.Eye> input, Violations violations)
    {
        if (input.Count > MostLooks)
        {
            violations.Add("eyes", $"{input.Count} eyes are given; at most {MostLooks} are looked through.");
        }

        var eyes = new List<ColorVision>();
        for (var i = 0; i < Math.Min(input.Count, MostLooks); i++)
        {
            var severity = input[i].HasSeverity ? input[i].Severity : 1;
            if (Words.Vision.Read(input[i].Kind) is not { } kind)
            {
                violations.Add($"eyes[{i}].kind", $"'{Shown.Of(input[i].Kind)}' is no colour-vision deficiency; use {Words.Vision.All}.");
            }
            else if (violations.InRange($"eyes[{i}].severity", severity, 0, 1) is >= 0 and <= 1)
            {
                eyes.Add(new ColorVision(kind, severity));
            }
        }

        return input.Count == 0 ? [.. Enum.GetValues<ColorVisionKind>().Select(kind => new ColorVision(kind))] : eyes;
    }

    public static V1.RampLook Write(RampLook look)
    {
        var message = new V1.RampLook { Name = look.Name, Steps = { look.Steps.Select(Write) }, Remarks = { look.Remarks } };
        if (look.Steps.Count > 1)
        {
            message.LargestDeltaE00 = look.LargestDeltaE00;
            message.SmallestDeltaE00 = look.SmallestDeltaE00;
        }

        return message;
    }

    private static V1.RampLookStep Write(RampLookStep step)
    {
        var message = new V1.RampLookStep
        {
            Number = step.Number,
            Recipe = RecipeMapping.Write(step.Recipe),
            Before = ColorMapping.Write(step.Before),
            After = ColorMapping.Write(step.After),
            ShiftDeltaE00 = step.ShiftDeltaE00,
        };
        if (step.StepBeforeDeltaE00 is { } before)
        {
            message.StepBeforeDeltaE00 = before;
        }

        if (step.StepDeltaE00 is { } now)
        {
            message.StepDeltaE00 = now;
        }

        return message;
    }
}

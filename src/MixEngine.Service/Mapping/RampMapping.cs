using MixEngine.Core;
using MixEngine.Service.Refusals;
using MixEngine.Service.Shelves;

namespace MixEngine.Service.Mapping;

/// <summary>Ramps as asked and as answered.</summary>
internal static class RampMapping
{
    /// <summary>Most recipes that a ramp leads through.</summary>
    public const int MostThrough = 16;

    public static (IReadOnlyList<Recipe> Through, RampOptions Options) Read(V1.RampRequest request, Shelf shelf, Violations violations)
    {
        var steps = violations.InRange("steps", request.Steps, 2, RampOptions.MostSteps, ifZero: new RampOptions().Steps);
        var drops = violations.InRange("drops", request.Drops, 1, RampOptions.MostDrops, ifZero: new RampOptions().Drops);
        if (request.Through.Count is < 2 or > MostThrough)
        {
            violations.Add("through", $"{request.Through.Count} paints or recipes are given; a ramp leads through 2 to {MostThrough}.");
        }

        var (topStep, difference) = (ReadTopStep(request.TopStep, violations), ReadDifference(request.Difference, violations));
        var smallest = request.HasSmallestStep ? ReadLimit("smallest_step", request.SmallestStep, violations) : (double?)null;
        var largest = request.HasLargestStep ? ReadLimit("largest_step", request.LargestStep, violations) : (double?)null;
        if (request.FewestSteps && largest is null)
        {
            violations.Add("largest_step", "It is missing; to find the number of steps, state how large a step may be.");
        }

        if (smallest > largest)
        {
            violations.Add("smallest_step", FormattableString.Invariant($"{smallest} is larger than the largest step, {largest}."));
        }

        for (var i = 0; i < request.Keep.Count; i++)
        {
            if (request.Keep[i] < 1 || request.Keep[i] > request.Through.Count)
            {
                violations.Add($"keep[{i}]", $"There is no recipe {request.Keep[i]} on the way; they are counted from 1 to {request.Through.Count}.");
            }
        }

        var through = request.Through.Take(MostThrough).Select((recipe, i) => RecipeMapping.ReadPigmented(recipe, $"through[{i}]", shelf, violations)).ToArray();
        return violations.Any
            ? ([], new RampOptions())
            : ([.. through.OfType<Recipe>()], new RampOptions
            {
                Steps = steps,
                Drops = drops,
                Difference = difference,
                TopStep = topStep,
                SmallestStep = smallest,
                LargestStep = largest,
                FewestSteps = request.FewestSteps,
                Kept = [.. request.Keep.Select(place => place - 1)],
                KeepEnds = !request.LooseEnds,
            });
    }

    /// <summary>Size of the last step relative to the first; zero stands for 1.</summary>
    public static double ReadTopStep(double topStep, Violations violations) =>
        topStep == 0 ? 1 : violations.InRange("top_step", topStep, RampOptions.LeastTopStep, RampOptions.MostTopStep);

    /// <summary>In what steps are measured; empty stands for CIEDE2000.</summary>
    public static StepDifference ReadDifference(string difference, Violations violations)
    {
        if (difference.Length > 0 && Words.Difference.Read(difference) is null)
        {
            violations.Add("difference", $"'{Shown.Of(difference)}' is no way to measure steps; use {Words.Difference.All}.");
        }

        return Words.Difference.Read(difference) ?? StepDifference.Ciede2000;
    }

    public static V1.RampResponse Write(EvenRamp ramp, V1.View? view) => new()
    {
        Steps = { ramp.Steps.Select(step => Write(step, view)) },
        LargestDeltaE00 = ramp.LargestDeltaE00,
        SmallestDeltaE00 = ramp.SmallestDeltaE00,
        UndividedSteps = { ramp.Undivided.Select(step => Write(step, view)) },
        Remarks = { ramp.Remarks },
        Unevenness = ramp.Unevenness,
    };

    public static V1.RampStep Write(RampStep step, V1.View? view)
    {
        var message = new V1.RampStep
        {
            Recipe = RecipeMapping.Write(step.Prediction.Recipe),
            Color = ColorMapping.Write(step.Prediction.Appearance),
            ExpectedError = ColorMapping.Write(step.Prediction.ExpectedError),
            Reflectance = ColorMapping.WriteReflectance(step.Prediction.Appearance.Reflectance, view),
            Remarks = { step.Remarks },
        };
        if (step.StepDeltaE00 is { } size)
        {
            message.StepDeltaE00 = size;
        }

        if (step.StepSize is { } asked)
        {
            message.StepSize = asked;
        }

        return message;
    }

    /// <summary>A colour reached from another.</summary>
    public static V1.RampStep Write(Prediction prediction, double? stepDeltaE00, V1.View? view) =>
        Write(new RampStep(prediction, stepDeltaE00, stepDeltaE00, []), view);

    private static double ReadLimit(string field, double step, Violations violations)
    {
        if (!(step is > 0 and <= 100))
        {
            violations.Add(field, FormattableString.Invariant($"{step} is not above 0 and at most 100."));
        }

        return step;
    }
}

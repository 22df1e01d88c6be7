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

        var through = request.Through.Take(MostThrough).Select((recipe, i) => RecipeMapping.ReadPigmented(recipe, $"through[{i}]", shelf, violations)).ToArray();
        return violations.Any ? ([], new RampOptions()) : ([.. through.OfType<Recipe>()], new RampOptions { Steps = steps, Drops = drops });
    }

    public static V1.RampResponse Write(EvenRamp ramp, V1.View? view) => new()
    {
        Steps = { ramp.Steps.Select(step => Write(step, view)) },
        LargestDeltaE00 = ramp.LargestDeltaE00,
        SmallestDeltaE00 = ramp.SmallestDeltaE00,
        UndividedSteps = { ramp.Undivided.Select(step => Write(step, view)) },
        Remarks = { ramp.Remarks },
    };

    private static V1.RampStep Write(RampStep step, V1.View? view)
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

        return message;
    }
}

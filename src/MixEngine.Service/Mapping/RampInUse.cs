using MixEngine.Core;
using MixEngine.Service.Refusals;
using MixEngine.Service.Shelves;

namespace MixEngine.Service.Mapping;

/// <summary>The recipes of a ramp that someone uses, as asked.</summary>
internal static class RampInUse
{
    /// <summary>Drops in one step where none are stated.</summary>
    public const int UsualDrops = 12;

    /// <summary>The recipes; empty, with violations noted, where something is wrong with them.</summary>
    public static IReadOnlyList<Recipe> Read(IReadOnlyList<V1.RecipeInput> input, string field, int least, Shelf shelf, Violations violations)
    {
        if (input.Count < least || input.Count > RampOptions.MostSteps)
        {
            violations.Add(field, $"{input.Count} recipes are given; {least} to {RampOptions.MostSteps} are needed.");
        }

        return [.. input.Take(RampOptions.MostSteps).Select((recipe, i) => RecipeMapping.ReadPigmented(recipe, $"{field}[{i}]", shelf, violations)).OfType<Recipe>()];
    }

    /// <summary>Drops in one step, and how steps are meant to shrink.</summary>
    public static RampOptions ReadOptions(int drops, double topStep, Violations violations)
    {
        var read = (Drops: violations.InRange("drops", drops, 1, RampOptions.MostDrops, ifZero: UsualDrops), TopStep: RampMapping.ReadTopStep(topStep, violations));
        return violations.Any ? new RampOptions() : new RampOptions { Drops = read.Drops, TopStep = read.TopStep };
    }
}

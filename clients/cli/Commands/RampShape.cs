using System.CommandLine;
using MixEngine.V1;

namespace MixEngine.Cli.Commands;

/// <summary>How a ramp is to be shaped.</summary>
internal static class RampShape
{
    private static readonly Option<string> Difference = new("--even-in")
    {
        Description = "In what the steps are to be even: ciede2000, cam16-ucs, oklab or lightness [default: ciede2000]",
        HelpName = "WORD",
    };

    private static readonly Option<double?> Top = OptionOf.Number("--top", "RATIO", "Size of the last step to the first; below 1 the steps shrink towards the light [default: 1]", least: 0.1, example: "0.6");

    private static readonly Option<double?> Smallest = OptionOf.Number("--smallest", "STEP", "No step smaller than this", least: 0, example: "2");

    private static readonly Option<double?> Largest = OptionOf.Number("--largest", "STEP", "No step larger than this; without --steps as few steps as keep to it", least: 0, example: "8");

    private static readonly Option<int[]> Keep = new("--keep")
    {
        Description = "The recipe at this place must be a step, counted from 1; given once or several times",
        HelpName = "PLACE",
    };

    private static readonly Option<bool> LooseEnds = new("--loose-ends") { Description = "The ramp may begin and end up to half a step inside" };

    public static IEnumerable<Option> Options => [Difference, Top, Smallest, Largest, Keep, LooseEnds];

    /// <summary>Puts the shape into a request.</summary>
    public static void Into(RampRequest request, ParseResult parsed, bool stepsAreStated)
    {
        request.Difference = parsed.GetValue(Difference) ?? "";
        request.TopStep = parsed.GetValue(Top) ?? 0;
        request.LooseEnds = parsed.GetValue(LooseEnds);
        request.Keep.AddRange(parsed.GetValue(Keep) ?? []);
        if (parsed.GetValue(Smallest) is { } smallest)
        {
            request.SmallestStep = smallest;
        }
        if (parsed.GetValue(Largest) is { } largest)
        {
            request.LargestStep = largest;
            request.FewestSteps = !stepsAreStated;
        }
    }
}

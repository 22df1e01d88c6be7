namespace MixEngine.Core;

/// <summary>How much of an area each of its layers covers, and where it goes.</summary>
/// <remarks>A base covers all; each layer above leaves more of the one beneath to be seen, down to the edges (common practice, no source).</remarks>
public static class LayerPlace
{
    private const double FirstLayer = 0.7;
    private const double Highlight = 0.1;

    /// <summary>Share of the area that a step covers, 0 to 1.</summary>
    /// <param name="step">0 for the base.</param>
    /// <param name="steps">How many there are.</param>
    public static double Coverage(int step, int steps) => step switch
    {
        0 => 1,
        _ when steps <= 2 => Highlight,
        _ => FirstLayer + (Highlight - FirstLayer) * (step - 1) / (steps - 2),
    };

    /// <summary>"base", "layer 2", "highlight"; a step alone has the word of its role.</summary>
    public static string Name(int step, int steps, AreaRole role) => role switch
    {
        AreaRole.Glaze => "glaze",
        AreaRole.Lining => "lining",
        AreaRole.Single => "all over",
        _ when step == 0 => "base",
        _ when step == steps - 1 => "highlight",
        _ => $"layer {step}",
    };

    /// <summary>Where a step goes, for a hand with a brush.</summary>
    public static string Words(int step, int steps, AreaRole role) => role switch
    {
        AreaRole.Glaze => "thin, over all of it; let each coat dry",
        AreaRole.Lining => "thin, into the seams",
        AreaRole.Single => "all of it",
        _ => Coverage(step, steps) switch
        {
            > 0.95 => "all of it",
            > 0.6 => "all but the recesses",
            > 0.4 => "the upper half of what is raised",
            > 0.2 => "only what faces the light",
            > 0.11 => "the upper edges",
            _ => "points and sharpest edges",
        },
    };
}

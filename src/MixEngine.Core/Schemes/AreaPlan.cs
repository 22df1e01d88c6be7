using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>How an area is painted.</summary>
/// <param name="Figure">Its figure.</param>
/// <param name="Area">The area.</param>
/// <param name="Layers">Its steps in the order of painting, dark to light.</param>
/// <param name="SameAs">The area whose mixes it shares, such as "net casters / cloak"; null: its own.</param>
/// <param name="WorstDeltaE00">The largest difference from its targets, CIEDE2000; null where its mixes were given.</param>
/// <param name="Reached">Whether that is within the scheme's tolerance.</param>
/// <param name="Remarks">What is to be said of it, in plain words.</param>
public sealed record AreaPlan(
    Figure Figure, Area Area, IReadOnlyList<LayerPlan> Layers, string? SameAs, double? WorstDeltaE00, bool Reached, IReadOnlyList<string> Remarks)
{
    /// <summary>"net casters / cloak".</summary>
    public string Key => $"{Figure.Name} / {Area.Name}";
}

/// <summary>One step of an area.</summary>
/// <param name="Name">"base", "layer 2", "highlight", "glaze" ...</param>
/// <param name="Where">Where it goes on the figure.</param>
/// <param name="Coverage">Share of the area that it covers, 0 to 1.</param>
/// <param name="Coats">How often it is laid.</param>
/// <param name="Blend">How it is made: parts of pots and of paints; for a glaze with its medium.</param>
/// <param name="Appearance">What it looks like; for a glaze after the last coat, over the middle of what lies beneath.</param>
/// <param name="ExpectedError">How far the real one may lie from it.</param>
/// <param name="Target">The colour it was to have; null where its mix was given or it lies between targets.</param>
/// <param name="TargetDeltaE00">Its difference from that, CIEDE2000.</param>
/// <param name="StepDeltaE00">Its difference from the step before, CIEDE2000; for a glaze from what lies beneath; null at a first step.</param>
/// <param name="Glazed">For a glaze: what each step beneath becomes, dark to light; empty otherwise.</param>
/// <param name="Remarks">What is to be said of it, in plain words.</param>
public sealed record LayerPlan(
    string Name, string Where, double Coverage, int Coats, Blend Blend, Appearance Appearance, ExpectedError ExpectedError,
    Lab? Target, double? TargetDeltaE00, double? StepDeltaE00, IReadOnlyList<Appearance> Glazed, IReadOnlyList<string> Remarks)
{
    /// <summary>The same in parts of paints.</summary>
    public Recipe Recipe => Blend.Recipe;
}

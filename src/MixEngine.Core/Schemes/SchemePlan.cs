namespace MixEngine.Core;

/// <summary>A scheme solved: the bottles, the mixes, and every step of every area.</summary>
/// <param name="Input">What was asked, with which paints.</param>
/// <param name="Tasks">What each area asked of the palette.</param>
/// <param name="Problem">The palette problem.</param>
/// <param name="Palette">Its answer.</param>
/// <param name="Areas">The areas in the order of the file.</param>
/// <param name="Mixes">Each pot once, in the order in which it is first needed.</param>
/// <param name="Bottles">The bottles to take, the most used first; medium last.</param>
/// <param name="NotNeeded">Paints of the shelf that this scheme does not touch.</param>
/// <param name="ToBuy">Which paint that could be bought would help most, the most helpful first.</param>
/// <param name="Cautions">What to take care of.</param>
/// <param name="Remarks">What is to be said of the whole, in plain words.</param>
public sealed record SchemePlan(
    SchemeInput Input, IReadOnlyList<AreaTask> Tasks, PaletteProblem Problem, PalettePlan Palette, IReadOnlyList<AreaPlan> Areas, IReadOnlyList<SchemeMix> Mixes,
    IReadOnlyList<BottleUse> Bottles, IReadOnlyList<Paint> NotNeeded, IReadOnlyList<NextBottle> ToBuy, IReadOnlyList<Caution> Cautions, IReadOnlyList<string> Remarks)
{
    /// <summary>The scheme.</summary>
    public Scheme Scheme => Input.Scheme;

    /// <summary>The largest difference from a target, CIEDE2000; 0 where nothing was to be hit.</summary>
    public double WorstDeltaE00 => Areas.Max(area => area.WorstDeltaE00 ?? 0);

    /// <summary>The pot of a recipe; null for a paint from its bottle.</summary>
    public SchemeMix? PotOf(Recipe recipe) => recipe.Parts.Count == 1 ? null : Mixes.First(mix => mix.Key == SchemeMix.KeyOf(recipe));

    /// <summary>The steps of all areas.</summary>
    public IEnumerable<(AreaPlan Area, LayerPlan Layer)> Layers => Areas.SelectMany(area => area.Layers.Select(layer => (area, layer)));
}

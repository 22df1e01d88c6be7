namespace MixEngine.Core;

/// <summary>A scheme with the paints that its names stand for.</summary>
/// <param name="Scheme">The scheme.</param>
/// <param name="Shelf">The paints to paint from; ids unique. Medium and water are left out of the planning.</param>
/// <param name="Recipes">What each paint or mix named in an area's aim stands for, by the text it was named with.</param>
public sealed record SchemeInput(Scheme Scheme, IReadOnlyList<Paint> Shelf, IReadOnlyDictionary<string, Recipe> Recipes)
{
    /// <summary>Ids of the paints that stand on the table already.</summary>
    public IReadOnlySet<string> OnTable { get; init; } = new HashSet<string>();

    /// <summary>Paints that could be bought.</summary>
    public IReadOnlyList<Paint> Buyable { get; init; } = [];
}

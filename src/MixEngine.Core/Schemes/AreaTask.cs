namespace MixEngine.Core;

/// <summary>An area with what it asks of the palette, once its references and its mood are resolved.</summary>
/// <param name="Figure">Its figure.</param>
/// <param name="Area">The area.</param>
/// <param name="Demands">The nodes of its ramp from dark to light, or its one colour or glaze.</param>
/// <param name="SameAs">The area whose very mixes it shares; null: it has its own.</param>
/// <param name="Remarks">What had to be bent, in plain words.</param>
public sealed record AreaTask(Figure Figure, Area Area, IReadOnlyList<Demand> Demands, AreaTask? SameAs, IReadOnlyList<string> Remarks)
{
    /// <summary>"net casters / cloak".</summary>
    public string Key => $"{Figure.Name} / {Area.Name}";
}

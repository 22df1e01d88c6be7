namespace MixEngine.Core;

/// <summary>How the parts of a swatch were measured out.</summary>
public enum Dosing
{
    /// <summary>Counted drops, which differ (<see cref="DropScatter"/>).</summary>
    Drops,

    /// <summary>Weighed or measured with a syringe, to about a thousandth of the whole.</summary>
    Weighed,
}

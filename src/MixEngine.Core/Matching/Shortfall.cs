using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>In which direction the nearest recipe falls short of the target.</summary>
/// <param name="Shift">How the nearest lies to the target.</param>
public sealed record Shortfall(ColorShift Shift)
{
    /// <summary>For example "the nearest is too dull and too dark".</summary>
    public string Words => $"the nearest is {Shift.FaultWords}";

    /// <summary>The shortfall of the nearest colour.</summary>
    public static Shortfall Of(Lab target, Lab nearest) => new(ColorShift.Between(target, nearest));
}

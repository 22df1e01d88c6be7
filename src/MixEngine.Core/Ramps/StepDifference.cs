using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>In what the steps of a ramp are to be even.</summary>
public enum StepDifference
{
    /// <summary>CIEDE2000.</summary>
    Ciede2000,

    /// <summary>Lightness L* alone, as a value study has it.</summary>
    Lightness,
}

/// <summary>Measures steps: a colour as three coordinates, and the difference of two of them.</summary>
internal sealed class StepMeasure(StepDifference difference)
{
    public Lab Coordinates(Lab lab) => difference switch
    {
        StepDifference.Ciede2000 => lab,
        StepDifference.Lightness => new Lab(lab.L, 0, 0),
        _ => throw new ArgumentOutOfRangeException(nameof(difference), difference, "A way to measure steps."),
    };

    public double Between(Lab one, Lab other) => difference switch
    {
        StepDifference.Ciede2000 => DeltaE2000.Between(one, other),
        _ => Math.Abs(one.L - other.L),
    };
}

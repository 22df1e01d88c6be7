using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>Measures steps: a colour as three coordinates, and the difference of two of them.</summary>
internal sealed class StepMeasure
{
    private readonly StepDifference _difference;
    private readonly Xyz _white;
    private readonly Cam16ViewingConditions? _desk;

    public StepMeasure(StepDifference difference, ViewingCondition condition)
    {
        if (!Enum.IsDefined(difference))
        {
            throw new ArgumentOutOfRangeException(nameof(difference), difference, "Steps are measured in CIEDE2000, CAM16-UCS, OKLab or lightness.");
        }

        _difference = difference;
        _white = TristimulusWeights.For(condition).White;
        _desk = difference == StepDifference.Cam16Ucs ? Cam16ViewingConditions.Desk(_white) : null;
    }

    /// <summary>Coordinates of a colour, in a space in which colours between two may be read along a straight line.</summary>
    public Lab Coordinates(Lab lab)
    {
        switch (_difference)
        {
            case StepDifference.Cam16Ucs:
                var ucs = Cam16Ucs.FromXyz(lab.ToXyz(_white), _desk!);
                return new Lab(ucs.J, ucs.A, ucs.B);
            case StepDifference.OkLab:
                var screenWhite = TristimulusWeights.For(ViewingCondition.Default).White;
                var ok = OkLab.FromXyz(ChromaticAdaptation.Cat16.Adapt(lab.ToXyz(_white), _white, screenWhite), screenWhite);
                return new Lab(100 * ok.L, 100 * ok.A, 100 * ok.B);
            case StepDifference.Lightness:
                return new Lab(lab.L, 0, 0);
            default:
                return lab;
        }
    }

    /// <summary>Difference of two colours given by their coordinates.</summary>
    public double Between(Lab one, Lab other) =>
        _difference == StepDifference.Ciede2000 ? DeltaE2000.Between(one, other) : DeltaE76.Between(one, other);

    /// <summary>Difference of two colours.</summary>
    public double BetweenColors(Lab one, Lab other) => Between(Coordinates(one), Coordinates(other));
}

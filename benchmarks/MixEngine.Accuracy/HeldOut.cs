using MixEngine.Colorimetry;
using MixEngine.Core;

namespace MixEngine.Accuracy;

/// <summary>A mixture that the fit has not seen, and how its prediction came out.</summary>
internal sealed record HeldOut(string Sample, Lab Predicted, Lab Measured, double Error, double Bound)
{
    public static HeldOut Of(MeasuredSample sample, Characterization learnt)
    {
        // Weighed parts are exact to a tenth of a percent: say that drops were counted, so that only their scatter is left out.
        var recipe = new Recipe(sample.Parts.Select(part => new Part(learnt.Paint(part.PaintId), part.Parts)));
        var prediction = Prediction.Of(recipe, new View(ViewingCondition.D65Degree10));
        var measured = sample.HidingLab();
        var predicted = prediction.Appearance.Lab;
        return new HeldOut(sample.Id, predicted, measured, DeltaE2000.Between(predicted, measured), prediction.ExpectedError.Bound);
    }
}

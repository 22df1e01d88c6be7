namespace MixEngine.Core;

/// <summary>Two plans of one scheme side by side: from another shelf, or from the same shelf later.</summary>
/// <param name="Steps">Step by step, in the order of the first plan.</param>
public sealed record SchemeComparison(IReadOnlyList<ComparedStep> Steps)
{
    /// <summary>Puts the steps of two plans beside each other: by area, each step of the first against the nearest in place of the second.</summary>
    public static SchemeComparison Of(SchemePlan first, SchemePlan second)
    {
        var others = second.Areas.ToDictionary(area => area.Key);
        return new SchemeComparison([.. first.Areas.SelectMany(area => area.Layers.Select((layer, i) => StepOf(area, layer, i, others[area.Key])))]);
    }

    /// <summary>The largest difference between two steps, CIEDE2000.</summary>
    public double WorstDeltaE00 => Steps.Max(step => step.DeltaE00);

    private static ComparedStep StepOf(AreaPlan area, LayerPlan layer, int i, AreaPlan other)
    {
        // A ramp of fewer steps has its ends where the other has them.
        var j = area.Layers.Count == 1 ? 0 : (int)Math.Round((double)i * (other.Layers.Count - 1) / (area.Layers.Count - 1));
        var there = other.Layers[j];
        var shift = ColorShift.Between(layer.Appearance.Lab, there.Appearance.Lab);
        return new ComparedStep(area, layer, there, shift.DeltaE00, shift.Words, SchemeMix.KeyOf(layer.Recipe) != SchemeMix.KeyOf(there.Recipe));
    }
}

/// <summary>One step in two plans.</summary>
/// <param name="Area">Its area, in the first plan.</param>
/// <param name="First">The step in the first plan.</param>
/// <param name="Second">The step in the second plan.</param>
/// <param name="DeltaE00">How far their colours are apart, CIEDE2000.</param>
/// <param name="Words">How the second lies to the first.</param>
/// <param name="OtherMix">Whether the mix is another.</param>
public sealed record ComparedStep(AreaPlan Area, LayerPlan First, LayerPlan Second, double DeltaE00, string Words, bool OtherMix);

namespace MixEngine.Core;

/// <summary>How uneven steps are: the standard deviation of their sizes divided by their mean. 0 is perfectly even; 0.5 bands.</summary>
public static class Unevenness
{
    /// <summary>The unevenness of one or more step sizes. Steps that are all 0 are even.</summary>
    public static double Of(IReadOnlyList<double> steps)
    {
        var mean = steps.Average();
        return mean > 0 ? Math.Sqrt(steps.Average(step => (step - mean) * (step - mean))) / mean : 0;
    }
}

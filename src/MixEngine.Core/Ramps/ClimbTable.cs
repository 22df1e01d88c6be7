using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>The colours of a path, looked up once for all that is solved on it.</summary>
internal sealed class ClimbTable(RampPath path, StepMeasure measure)
{
    /// <summary>Spacing of the table in CIELAB: below what an eye sees, and fine enough for straight lines between.</summary>
    private const double Spacing = 0.25;

    private readonly IReadOnlyList<(double Position, Lab Lab)> _samples = path.Sampled(Spacing);

    /// <summary>The climb from one position of a recipe of the path to another.</summary>
    public Climb Climb(double from, double to) =>
        Core.Climb.Of([.. _samples.Where(sample => sample.Position >= from && sample.Position <= to)], path, measure);
}

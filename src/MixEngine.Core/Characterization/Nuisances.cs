namespace MixEngine.Core;

/// <summary>
/// What about a sample is of no further interest but must be allowed for: how its doses really were, how thick its film lies, how much
/// of the surface reflection each reading took in. Each has a usual value and a standard deviation, and is found along with the paints.
/// </summary>
internal sealed class Nuisances
{
    private readonly double[] _means;
    private readonly double[] _variances;
    private readonly double _freedom;

    /// <summary>Lays out the nuisances of a sample.</summary>
    /// <param name="doseVariances">Variance of ln(dose) of each paint but the first, to which they are relative.</param>
    /// <param name="readings">Its readings.</param>
    /// <param name="film">Whether it is a film over a ground.</param>
    /// <param name="thicknessUm">Its stated thickness.</param>
    /// <param name="coats">Its coats, where counted.</param>
    /// <param name="beliefs">Standard deviations.</param>
    public Nuisances(double[] doseVariances, SampleReading[] readings, bool film, double? thicknessUm, int? coats, Beliefs beliefs)
    {
        var means = new List<double>();
        var variances = new List<double>();
        void Add(double mean, double deviation)
        {
            means.Add(mean);
            variances.Add(deviation * deviation);
        }

        // Doses; or, of a paint alone, how much more its crowded pigment absorbs against what it scatters than it does let down.
        foreach (var variance in doseVariances)
        {
            Add(0, Math.Sqrt(variance));
        }

        if (doseVariances.Length == 0)
        {
            Add(0, beliefs.MasstoneLevel);
        }

        // Thickness of the film, against the usual one where none is stated, or against so many usual coats; then of the film under each reading against its own.
        ThicknessAt = means.Count;
        if (film)
        {
            var againstUsual = coats * beliefs.CoatUm / beliefs.ThicknessUm ?? 1;
            Add(Math.Log(thicknessUm ?? againstUsual), thicknessUm is null ? beliefs.ThicknessOfFilm : beliefs.StatedThickness);
            foreach (var _ in readings)
            {
                Add(0, beliefs.ThicknessScatter);
            }
        }

        // Surface share of each reading, against that of its way of reading.
        SharesAt = means.Count;
        foreach (var reading in readings)
        {
            Add(0, beliefs.SurfaceScatter + Math.Max(0, -reading.ShareStart));
        }

        (_means, _variances, _freedom) = ([.. means], [.. variances], beliefs.StrengthFreedom);
        Values = [.. means];
        Variances = [.. variances];
        for (var i = 0; i < readings.Length; i++)
        {
            Values[SharesAt + i] = readings[i].ShareStart;
        }
    }

    /// <summary>Number of nuisances.</summary>
    public int Count => _means.Length;

    /// <summary>Where the thicknesses begin; the doses stand before them.</summary>
    public int ThicknessAt { get; }

    /// <summary>Where the surface shares begin.</summary>
    public int SharesAt { get; }

    /// <summary>Where they are believed to be.</summary>
    public double[] Values { get; }

    /// <summary>Their variances as last weighed.</summary>
    public double[] Variances { get; }

    /// <summary>Departure from the usual value.</summary>
    public double Departure(int n) => Values[n] - _means[n];

    /// <summary>The values with doses and surfaces as stated, the film as thick as it was found.</summary>
    public double[] AsStated()
    {
        var stated = (double[])_means.Clone();
        Array.Copy(Values, ThicknessAt, stated, ThicknessAt, SharesAt - ThicknessAt);
        return stated;
    }

    /// <summary>Weighs the variances anew.</summary>
    /// <param name="robust">Whether doses may be far off now and then: Student's t is a normal whose variance follows the departure [Lange1989].</param>
    public void Weigh(bool robust)
    {
        for (var n = 0; n < Count; n++)
        {
            var departure = Departure(n);
            Variances[n] = robust && n < ThicknessAt + (SharesAt > ThicknessAt ? 1 : 0)
                ? (_freedom * _variances[n] + departure * departure) / (_freedom + 1)
                : _variances[n];
        }
    }

    /// <summary>Moves a nuisance towards mean + deviation·score, never by more than a factor of e at once.</summary>
    public void MoveTowards(int n, double score, double damping)
    {
        var target = _means[n] + Math.Sqrt(Variances[n]) * score;
        Values[n] += damping * Math.Clamp(target - Values[n], -1, 1);
    }
}

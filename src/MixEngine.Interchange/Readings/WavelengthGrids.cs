namespace MixEngine.Interchange;

/// <summary>Keeps one array for each grid of wavelengths, however many spectra are measured on it.</summary>
internal sealed class WavelengthGrids
{
    private readonly List<double[]> _grids = [];

    public double[] Shared(ReadOnlySpan<double> wavelengthsNm)
    {
        // The grid of the row before is nearly always that of this one.
        for (int i = _grids.Count - 1; i >= 0; i--)
        {
            if (wavelengthsNm.SequenceEqual(_grids[i]))
            {
                return _grids[i];
            }
        }
        _grids.Add(wavelengthsNm.ToArray());
        return _grids[^1];
    }
}

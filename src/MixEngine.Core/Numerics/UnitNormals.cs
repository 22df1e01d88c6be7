namespace MixEngine.Core;

/// <summary>A fixed sequence of unit-normal numbers for each seed, the same on every machine.</summary>
/// <remarks>Uniform numbers by [Steele2014], made normal in pairs by [BoxMuller1958].</remarks>
internal struct UnitNormals(ulong seed)
{
    private ulong _state = seed;
    private double? _spare;

    /// <summary>The next number.</summary>
    public double Next()
    {
        if (_spare is { } spare)
        {
            _spare = null;
            return spare;
        }

        var radius = Math.Sqrt(-2 * Math.Log(Uniform()));
        var (sin, cos) = Math.SinCos(2 * Math.PI * Uniform());
        _spare = radius * sin;
        return radius * cos;
    }

    /// <summary>Fills a span.</summary>
    public void Fill(Span<double> numbers)
    {
        for (var i = 0; i < numbers.Length; i++)
        {
            numbers[i] = Next();
        }
    }

    // Above 0 and at most 1.
    private double Uniform()
    {
        var z = _state += 0x9E3779B97F4A7C15;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
        z ^= z >> 31;
        return ((z >> 11) + 1) * (1.0 / (1UL << 53));
    }
}

namespace MixEngine.Interchange;

/// <summary>A row's colour before the scale of its table is known.</summary>
internal sealed record ColorDraft(int Line)
{
    /// <summary>A hex or Lab colour, which needs no scale.</summary>
    public ColorReading? Ready { get; init; }

    /// <summary>Tristimulus values as written.</summary>
    public XyzReading? Xyz { get; init; }

    /// <summary>Ascending wavelengths of <see cref="Values"/>, nm; empty when there is no spectrum.</summary>
    public double[] WavelengthsNm { get; init; } = [];

    /// <summary>Reflectances as written.</summary>
    public double[] Values { get; init; } = [];

    /// <summary>What the row says of its scale.</summary>
    public ReflectanceScale? Declared { get; init; }

    /// <summary>Whether light or observer of a Lab or XYZ were assumed.</summary>
    public bool AssumesCondition { get; init; }

    public bool IsSpectrum => Values.Length > 0;
}

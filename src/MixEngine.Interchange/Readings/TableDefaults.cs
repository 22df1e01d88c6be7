using MixEngine.Colorimetry;

namespace MixEngine.Interchange;

/// <summary>What a table's own head says of all its rows.</summary>
internal sealed record TableDefaults
{
    public static readonly TableDefaults None = new();

    public Illuminant? Illuminant { get; init; }

    public Observer? Observer { get; init; }

    public ReflectanceScale? SpectrumScale { get; init; }

    public ReflectanceScale? XyzScale { get; init; }

    public SpecularMode Specular { get; init; }

    public SwatchBacking? Backing { get; init; }

    public SwatchSource? Source { get; init; }
}

namespace MixEngine.Interchange;

/// <summary>How a file writes a reflectance factor.</summary>
public enum ReflectanceScale
{
    /// <summary>0 to 1.</summary>
    Fraction,

    /// <summary>0 to 100.</summary>
    Percent,
}

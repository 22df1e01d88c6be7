namespace MixEngine.Colorimetry;

/// <summary>The CIE standard colorimetric observers [CIE15].</summary>
public enum Observer
{
    /// <summary>CIE 1931, a field of 2 degrees: what sRGB and screens are defined with.</summary>
    Degree2,

    /// <summary>CIE 1964, a field of 10 degrees: usual for instrument readings of painted samples.</summary>
    Degree10,
}

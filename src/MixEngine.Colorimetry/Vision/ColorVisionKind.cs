namespace MixEngine.Colorimetry;

/// <summary>Which cones of an eye answer to other wavelengths than most, or are missing.</summary>
public enum ColorVisionKind
{
    /// <summary>The long-wave cones: reds are dark, red and green are hard to tell apart.</summary>
    Protan,

    /// <summary>The middle-wave cones, the most frequent: red and green are hard to tell apart.</summary>
    Deutan,

    /// <summary>The short-wave cones, rare: blue and yellow are hard to tell apart.</summary>
    Tritan,
}

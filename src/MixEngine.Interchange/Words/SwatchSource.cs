namespace MixEngine.Interchange;

/// <summary>Where a swatch's colour comes from: how far it can be trusted.</summary>
public enum SwatchSource
{
    /// <summary>Measured by a colorimeter or spectrophotometer.</summary>
    Instrument,

    /// <summary>Taken from a photograph or scan.</summary>
    Photo,

    /// <summary>Judged by eye, or found on a web page.</summary>
    Guess,
}

internal static class SwatchSources
{
    public static readonly Vocabulary<SwatchSource> Words = new(
        (SwatchSource.Instrument, ["instrument", "measured", "spectrophotometer", "colorimeter", "colourimeter"]),
        (SwatchSource.Photo, ["photo", "photograph", "camera", "scan", "picture"]),
        (SwatchSource.Guess, ["guess", "eye", "estimate", "web"]));
}

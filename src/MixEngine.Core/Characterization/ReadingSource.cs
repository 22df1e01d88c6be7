namespace MixEngine.Core;

/// <summary>Where a colour was read, and so how far it is trusted.</summary>
public enum ReadingSource
{
    /// <summary>A colorimeter or spectrophotometer.</summary>
    Instrument,

    /// <summary>A photograph, or a hex code from a screen.</summary>
    Photo,

    /// <summary>Judged by eye.</summary>
    Guess,
}

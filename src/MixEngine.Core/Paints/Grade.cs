namespace MixEngine.Core;

/// <summary>The evidence on which a paint's optics rest, weakest first.</summary>
public enum Grade
{
    /// <summary>Nothing needs to be known: medium and water have no pigment.</summary>
    None,

    /// <summary>One colour of the dried paint, and a word for its opacity.</summary>
    Color,

    /// <summary>The paint alone and let down with a white at known parts.</summary>
    Ladder,

    /// <summary>The same film over black and over white.</summary>
    Drawdown,

    /// <summary>Any of these as measured spectra.</summary>
    Spectra,

    /// <summary>Swatches of mixtures really made.</summary>
    History,
}

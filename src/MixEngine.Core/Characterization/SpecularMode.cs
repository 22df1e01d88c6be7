namespace MixEngine.Core;

/// <summary>Whether a reading took in the first reflection of the surface.</summary>
public enum SpecularMode
{
    /// <summary>Not known: an instrument's share is learnt from its own readings, a photograph is taken to leave it out.</summary>
    NotStated,

    /// <summary>Left out, as by 45/0 geometry or a gloss trap: a gloss film shows none of it, a matt one all.</summary>
    Excluded,

    /// <summary>Taken in whole.</summary>
    Included,
}

namespace MixEngine.Interchange;

/// <summary>Whether an instrument collected the mirror reflection of the surface.</summary>
public enum SpecularMode
{
    /// <summary>Not stated.</summary>
    Unknown,

    /// <summary>Collected: a sphere with its gloss trap closed (di:8).</summary>
    Included,

    /// <summary>Left out: a sphere with its gloss trap open (de:8), or 45:0 and 0:45.</summary>
    Excluded,
}

internal static class SpecularModes
{
    public static readonly Vocabulary<SpecularMode> Words = new(
        (SpecularMode.Unknown, ["unknown", "na", "not stated"]),
        (SpecularMode.Included, ["included", "specular included", "sci", "spin", "rsin", "di:8", "8:di", "yes"]),
        (SpecularMode.Excluded, ["excluded", "specular excluded", "sce", "spex", "rsex", "de:8", "8:de", "45/0", "0/45", "no"]));
}

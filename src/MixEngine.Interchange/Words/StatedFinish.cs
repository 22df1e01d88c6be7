namespace MixEngine.Interchange;

/// <summary>The sheen of the dried surface.</summary>
public enum StatedFinish
{
    /// <summary>Scatters its surface reflection.</summary>
    Matt,

    /// <summary>Between matt and gloss.</summary>
    Satin,

    /// <summary>Mirrors its surface reflection away.</summary>
    Gloss,
}

internal static class StatedFinishes
{
    public static readonly Vocabulary<StatedFinish> Words = new(
        (StatedFinish.Matt, ["matt", "matte", "mat", "flat", "dull"]),
        (StatedFinish.Satin, ["satin", "semi-gloss", "semi-matt", "semi-matte", "half-gloss", "silk", "eggshell"]),
        (StatedFinish.Gloss, ["gloss", "glossy", "shiny", "high gloss"]));
}

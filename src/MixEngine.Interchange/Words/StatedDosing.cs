namespace MixEngine.Interchange;

/// <summary>How the parts of a recipe were measured out.</summary>
public enum StatedDosing
{
    /// <summary>Counted drops.</summary>
    Drops,

    /// <summary>On a balance, or with a syringe.</summary>
    Weighed,
}

internal static class StatedDosings
{
    public static readonly Vocabulary<StatedDosing> Words = new(
        (StatedDosing.Drops, ["drops", "drop", "counted"]),
        (StatedDosing.Weighed, ["weighed", "balance", "scales", "by weight", "syringe"]));
}

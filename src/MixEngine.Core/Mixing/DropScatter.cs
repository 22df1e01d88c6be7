namespace MixEngine.Core;

/// <summary>How much drops differ from what is counted on.</summary>
public static class DropScatter
{
    /// <summary>
    /// Standard deviation of ln(volume) of one drop of one bottle: 0.05.
    /// Common practice says a few percent; dropper bottles for the eye repeat within 5 of 34 to 63 µl (mean of 19 designs), twice as much.
    /// </summary>
    public const double WithinBottle = 0.05;

    /// <summary>
    /// The same between bottles whose drops were never counted: 0.15. Bottles of all makers spread over 15 to 50 drops per ml (common practice, no source),
    /// those of one shelf much less, since most come from a few makers.
    /// </summary>
    public const double BetweenBottles = 0.15;

    /// <summary>Standard deviation of ln(volume) of so many drops of a paint.</summary>
    public static double Of(Part part)
    {
        var between = part.Paint.DropsPerMl is null ? BetweenBottles : 0;
        return Math.Sqrt(between * between + WithinBottle * WithinBottle / Math.Max(1, part.Parts));
    }
}

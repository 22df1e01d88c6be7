namespace MixEngine.Core;

/// <summary>Which bottles to take: every demand with the ways to meet it.</summary>
/// <param name="Paints">The shelf, in the order of the ids.</param>
/// <param name="Demands">What is asked for.</param>
/// <param name="Options">For each demand its options, the nearest first; never empty.</param>
/// <param name="Tolerance">The difference that is good enough, CIEDE2000.</param>
/// <param name="OnTable">Which of the paints stand on the table already.</param>
/// <param name="Complete">Whether every recipe within the scheme's limits was looked at; false where the shelf is too large for that.</param>
/// <param name="LookedAt">What was looked at, in plain words.</param>
public sealed record PaletteProblem(
    IReadOnlyList<Paint> Paints, IReadOnlyList<Demand> Demands, IReadOnlyList<IReadOnlyList<PaletteOption>> Options,
    double Tolerance, IReadOnlyList<bool> OnTable, bool Complete, string LookedAt)
{
    /// <summary>How much worse than its best a colour may become that no mix of the shelf brings within the tolerance, CIEDE2000: what a trained eye just sees side by side (common practice).</summary>
    public const double OutOfReachSlack = 1;

    /// <summary>The largest difference that a demand may be left with: the tolerance; where the whole shelf cannot reach that, what it reaches and a little.</summary>
    public double Allowed(int demand) => OutOfReach(demand) ? Options[demand][0].DeltaE00 + OutOfReachSlack : Tolerance;

    /// <summary>A difference without the part that no mix of the shelf can take away: by this palettes are compared, so that one colour out of reach does not hide all the others.</summary>
    public double Avoidable(int demand, double deltaE00) => deltaE00 - Math.Max(0, Options[demand][0].DeltaE00 - Tolerance);

    /// <summary>Whether the whole shelf leaves the demand outside the tolerance.</summary>
    public bool OutOfReach(int demand) => Options[demand][0].DeltaE00 > Tolerance;
}

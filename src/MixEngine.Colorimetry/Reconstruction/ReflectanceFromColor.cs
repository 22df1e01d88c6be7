using System.Globalization;

namespace MixEngine.Colorimetry;

/// <summary>
/// Makes up a reflectance for a colour: among all curves between 0 and 1 with that colour the one of least slope
/// (in ln(R/(1-R))) [Burns2020]. Real pigments have smooth curves too, so it is a fair guess; it is a guess all the same.
/// </summary>
public static class ReflectanceFromColor
{
    private const double ExactDeltaE = 0.001;

    private const double FarOutside = 1e6;

    // The end of the surfaces is found to this share of the way to it; from the neutral itself no stride is shorter than the second.
    private const double Precision = 1.0 / 4096;
    private const double SmallestStride = 1e-9;

    /// <summary>The smoothest reflectance with the colour of <paramref name="target"/>.</summary>
    /// <param name="target">Tristimulus values (white Y = 100) under <paramref name="view"/>.</param>
    /// <param name="view">The light and observer in which the colour was stated.</param>
    /// <returns>
    /// The curve. A colour that no surface can have (outside the object-colour solid) is answered by the last reachable
    /// colour on the straight line from the neutral of the same luminance towards it, with Exact = false and the difference.
    /// Colours on the last hundredths of that way, which only steps between 0 and 1 could have, count as outside: at most 6 % of it, near white under fluorescent lines, and mostly below 2 %.
    /// </returns>
    /// <exception cref="ArgumentException">A value is not finite.</exception>
    public static ReconstructedReflectance Reconstruct(Xyz target, ViewingCondition view)
    {
        ArgumentNullException.ThrowIfNull(view);
        if (!target.IsFinite)
        {
            throw new ArgumentException(
                string.Create(CultureInfo.InvariantCulture, $"The colour X = {target.X}, Y = {target.Y}, Z = {target.Z} is not made of numbers."),
                nameof(target));
        }

        // Beyond this every colour is equally out of reach, and squares would overflow.
        target = new Xyz(Limit(target.X), Limit(target.Y), Limit(target.Z));

        var weights = TristimulusWeights.For(view);
        var white = weights.White;

        // Start at the neutral of the same luminance, whose curve is flat.
        const double smallest = MinimumSlopeCurve.SmallestReflectance;
        var luminance = Math.Clamp(target.Y / white.Y, smallest, 1 - smallest);
        var curve = MinimumSlopeCurve.Flat(luminance);
        var start = new Xyz(white.X / 100 * luminance, white.Y / 100 * luminance, white.Z / 100 * luminance);
        var goal = new Xyz(target.X / 100, target.Y / 100, target.Z / 100);

        // Walk towards the colour, in one stride if Newton's method can follow, in shorter ones where it cannot.
        double reached = 0, stride = 1;
        while (reached < 1 && stride > Math.Max(SmallestStride, Precision * reached))
        {
            var ahead = Math.Min(1, reached + stride);
            var next = curve.MoveTo(Between(start, goal, ahead), weights);
            if (next is null)
            {
                stride /= 2;
                continue;
            }

            curve = next;
            reached = ahead;
        }

        var reflectance = new Reflectance(curve.Reflectances());
        var achieved = weights.ToXyz(reflectance);
        var difference = DeltaE2000.Between(Lab.FromXyz(achieved, white), Lab.FromXyz(target, white));
        return new ReconstructedReflectance(reflectance, achieved, difference <= ExactDeltaE, difference);
    }

    private static double Limit(double value) => Math.Clamp(value, -FarOutside, FarOutside);

    private static Xyz Between(Xyz from, Xyz to, double share) =>
        new(from.X + share * (to.X - from.X), from.Y + share * (to.Y - from.Y), from.Z + share * (to.Z - from.Z));
}

using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>A paint that is not on the shelf and would open a target that nothing on the shelf reaches, or at least bring it far nearer.</summary>
/// <remarks>
/// Mixing pulls every colour towards the others: the paint must lie at the target itself, or beyond it where something else must be in the
/// recipe. Such paints are made up of their colour alone and tried, the mildest first; so what is said to open the target does.
/// </remarks>
/// <param name="Look">Its dried colour in a hiding layer.</param>
/// <param name="DeltaE00">The difference from the target that it leaves, with what must be in the recipe and what is on the palette.</param>
/// <param name="Words">For example "a bright purple that is itself more vivid than the nearest mix".</param>
public sealed record PaintWanted(Appearance Look, double DeltaE00, string Words)
{
    private const string Id = "paint wanted";

    // How far beyond the target, seen from the nearest mix: a paint that others are mixed to must be stronger.
    private static readonly double[] Beyond = [0, 0.5, 1, 2];

    // After so many, a colour at the edge of what a film can show moves by less than an eye sees.
    private const int Readings = 3;

    /// <summary>
    /// The mildest paint that opens the target; where nothing else must be in the recipe also one that at least halves the difference; null where
    /// there is neither.
    /// </summary>
    /// <param name="target">What to look like.</param>
    /// <param name="paints">The shelf.</param>
    /// <param name="options">What may be used.</param>
    /// <param name="nearest">The nearest that the shelf reaches.</param>
    /// <param name="stop">Ends the search; then there is none.</param>
    public static PaintWanted? For(MatchTarget target, IEnumerable<Paint> paints, MatchOptions options, Match nearest, CancellationToken stop = default)
    {
        // Beside it, only what must be in: any other paint would be a choice, not a need.
        Paint[] needed = [.. paints.Where(paint => options.Must.Contains(paint.Id))];
        var condition = options.View.Condition;
        var (aim, near) = (target.Under(condition), nearest.Appearance.Lab);
        var alone = needed.Length == 0 && options.Base is null;
        foreach (var beyond in alone ? [0] : Beyond)
        {
            var color = new Lab(
                Math.Clamp(aim.L + beyond * (aim.L - near.L), 0, 100),
                aim.A + beyond * (aim.A - near.A),
                aim.B + beyond * (aim.B - near.B));

            // No paint has every colour: take the nearest that one can have, as it would be read again from its dried film.
            var wanted = Made(color, options.View);
            for (var reading = 0; reading < Readings; reading++)
            {
                wanted = Made(LookOf(wanted, options.View).Lab, options.View);
            }

            var match = RecipeSearch.Find(target, [wanted, .. needed], options with { Answers = 1, MustNot = [] }, stop).Best;
            if (stop.IsCancellationRequested)
            {
                return null;
            }

            var enough = alone ? Math.Max(options.Tolerance, nearest.DeltaE00 / 2) : options.Tolerance;
            if (match.DeltaE00 <= enough && match.Added.Any(part => part.Paint.Id == Id))
            {
                var look = LookOf(wanted, options.View);
                return new PaintWanted(look, match.DeltaE00, WordsFor(look.Lab, Shortfall.Of(aim, near)));
            }
        }

        return null;
    }

    // A paint of that colour in that very finish, so that asking for the finish does not move it.
    private static Paint Made(Lab color, View view) => ColorGrade.Characterize(
        new Paint { Id = Id, Name = Id, Finish = view.Finish, Optics = AbsorptionScattering.Clear, Grade = Grade.Color },
        color.ToXyz(TristimulusWeights.For(view.Condition).White), view.Condition, ColorGrade.LabReading);

    private static Appearance LookOf(Paint paint, View view) => Prediction.AppearanceOf(new Recipe([new Part(paint, 1)]), view);

    // What it must have more of than anything mixed so far.
    private static string WordsFor(Lab look, Shortfall shortfall) =>
        $"{Article(ColorWords.Describe(look))} paint that is itself {shortfall.Shift.RemedyWords} than the nearest mix";

    private static string Article(string words) => ("aeiou".Contains(words[0]) ? "an " : "a ") + words;
}

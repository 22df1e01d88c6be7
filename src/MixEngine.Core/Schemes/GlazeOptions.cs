using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>Glazes of one paint each, let down and laid as often as comes nearest to a colour.</summary>
internal sealed class GlazeOptions(SearchShelf shelf, View view)
{
    // Parts of medium to one of paint that are tried: common practice goes from two to ten.
    private static readonly double[] LetDowns = [2, 3, 4, 6, 8, LetDownLimits.MostMedium];

    /// <summary>The best glaze of each paint for an aim, the nearest first.</summary>
    public IReadOnlyList<PaletteOption> For(Lab aim, GlazeGoal goal)
    {
        var white = TristimulusWeights.For(view.Condition).White;
        var beneath = PaintedSurface.OfColor(goal.Beneath.ToXyz(white), view.Condition).Stack();
        return [.. Enumerable.Range(0, shelf.Paints.Length).Select(place => Best(place, beneath, aim, goal)).OrderBy(option => option.DeltaE00).ThenBy(option => option.Places[0])];
    }

    private PaletteOption Best(int place, SeenStack beneath, Lab aim, GlazeGoal goal)
    {
        PaletteOption? best = null;
        foreach (var medium in goal.Medium is { } stated ? [stated] : LetDowns)
        {
            var recipe = Recipe.Of(shelf.Paints[place]).LetDown(medium, 0);
            var coats = 0;
            foreach (var stack in new Coats(recipe, goal.MostCoats).Over(beneath))
            {
                coats++;
                var difference = DeltaE2000.Between(aim, stack.LabUnder(view));
                if (best is null || difference < best.DeltaE00)
                {
                    best = new PaletteOption([place], recipe, difference, coats);
                }
            }
        }

        return best!;
    }
}

namespace MixEngine.Core;

/// <summary>How many recipes the options admit: sets of paints times ways to count out drops, each colour in its smallest drops.</summary>
internal static class RecipeCount
{
    /// <summary>The count; exact up to 2^53.</summary>
    public static double Of(SearchScope scope, MatchOptions options)
    {
        var count = scope.OnBase && scope.Must.Length == 0 ? 1.0 : 0;
        var mediums = scope.Shelf.StartPigmented > 0 ? 0 : scope.Shelf.Paints.Count(paint => paint.Kind != PaintKind.Paint);
        var mustBeMediums = scope.Must.All(place => scope.Shelf.Paints[place].Kind != PaintKind.Paint);
        for (var paints = Math.Max(1, scope.Must.Length); paints <= options.Paints; paints++)
        {
            // Recipes without any pigment have no colour, and are none.
            var added = paints - scope.Must.Length;
            var sets = Sets(scope.Shelf.Paints.Length - scope.Must.Length, added) - (mustBeMediums ? Sets(mediums - scope.Must.Length, added) : 0);
            count += sets * Compositions(paints, options.Drops, scope.OnBase);
        }

        return count;
    }

    private static double Sets(int of, int size)
    {
        var sets = 1.0;
        for (var i = 0; i < size; i++)
        {
            sets *= (of - i) / (i + 1.0);
        }

        return of < size ? 0 : Math.Round(sets);
    }

    private static double Compositions(int paints, int drops, bool onBase)
    {
        var count = 0.0;
        for (var a = 1; a <= drops; a++)
        {
            for (var b = paints > 1 ? 1 : 0; b <= (paints > 1 ? drops - a : 0); b++)
            {
                for (var c = paints > 2 ? 1 : 0; c <= (paints > 2 ? drops - a - b : 0); c++)
                {
                    count += onBase || Candidate.IsReduced(a, b, c) ? 1 : 0;
                }
            }
        }

        return count;
    }
}

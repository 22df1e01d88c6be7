using System.Globalization;

namespace MixEngine.Core;

/// <summary>Finds the ways to meet each demand from a shelf.</summary>
/// <remarks>
/// All recipes of one and two paints are looked at, and those of three paints as far as <see cref="MostRecipes"/> allows: on a larger shelf the three come from
/// the paints that already serve most demands. A way is left out where a part of its paints does as well.
/// </remarks>
public static class PaletteOptions
{
    /// <summary>The most recipes that are held at once: some 70 MB.</summary>
    public const int MostRecipes = 1_000_000;

    /// <summary>The most options of all demands together, so that large schemes stay as quick for each area as small ones.</summary>
    public const int MostOptions = 24_000;

    /// <summary>The fewest options of a demand that are kept however large the scheme is.</summary>
    public const int FewestOptions = 4;

    /// <summary>How far beyond the tolerance options are kept, for the trade-off of fewer bottles: three times, and at least 5 CIEDE2000.</summary>
    public static double RadiusFor(double tolerance) => Math.Max(5, 3 * tolerance);

    /// <summary>States the problem.</summary>
    /// <param name="input">The shelf and what of it stands on the table.</param>
    /// <param name="demands">What is asked for; at least one.</param>
    /// <param name="cancellation">Ends the work.</param>
    public static PaletteProblem Of(SchemeInput input, IReadOnlyList<Demand> demands, CancellationToken cancellation = default)
    {
        var view = input.Scheme.View;
        var shelf = new SearchShelf(input.Shelf.Where(paint => paint.Kind == PaintKind.Paint), view);
        if (shelf.Paints.Length == 0)
        {
            throw new ArgumentException("There is no paint on the shelf to plan with; a scheme needs at least one paint with pigment.", nameof(input));
        }

        var solved = demands.Any(demand => demand.Given is null && demand.Glaze is null);
        var (cloud, drops, threeFrom) = solved ? Cloud(shelf, input.Scheme, demands, cancellation) : (null, input.Scheme.Drops, 0);
        var glazes = demands.Any(demand => demand.Glaze is not null) ? new GlazeOptions(shelf, view) : null;
        var most = Math.Clamp(MostOptions / demands.Count, FewestOptions, 300);
        var radius = RadiusFor(input.Scheme.Tolerance);
        bool[] onTable = [.. shelf.Paints.Select(paint => input.OnTable.Contains(paint.Id))];
        var core = new Lazy<bool[]>(() => CorePaints.Of(shelf.Paints.Length, [.. Sample(demands).Select(demand => Sets(cloud!, demand, input.Scheme.Tolerance))], onTable));
        var all = true;

        // Each demand by itself, on all cores; the answers keep the order of the demands.
        var options = new IReadOnlyList<PaletteOption>[demands.Count];
        Parallel.For(0, demands.Count, new ParallelOptions { CancellationToken = cancellation, TaskScheduler = null }, i => options[i] = demands[i] switch
        {
            { Given: { } given } => [GivenOption(shelf, demands[i], given)],
            { Glaze: { } goal } => glazes!.For(demands[i].Aim, goal),
            _ => Kept(demands[i]),
        });

        // Where a large shelf has more within the tolerance than can be kept, what lies beyond is not looked for.
        List<PaletteOption> Kept(Demand demand)
        {
            var kept = Ways(cloud!, demand, input.Scheme.Tolerance);
            if (kept.Length < most)
            {
                kept = Ways(cloud!, demand, radius);
            }

            if (kept.Length > most)
            {
                Volatile.Write(ref all, false);
                kept = Few(kept, most, input.Scheme.Tolerance, core.Value);
            }

            return [.. kept.Select(way => OptionOf(shelf, way.Recipe, way.DeltaE00))];
        }

        var paints = Math.Min(input.Scheme.PaintsPerMix, shelf.Paints.Length);
        var complete = all && drops == input.Scheme.Drops && (paints < 3 || threeFrom == shelf.Paints.Length);
        return new PaletteProblem(
            shelf.Paints, demands, options, input.Scheme.Tolerance, onTable, complete,
            solved ? LookedAt(shelf.Paints.Length, paints, drops, threeFrom) + (all ? "" : $", the {most} most useful for each colour") : "the mixes that the scheme names");
    }

    private static string LookedAt(int shelf, int paints, int drops, int threeFrom) => string.Create(CultureInfo.InvariantCulture, $"{paints switch
    {
        1 => $"the {shelf} paints alone",
        2 => $"every mix of one or two of {shelf} paints in up to {drops} drops",
        _ when threeFrom == shelf => $"every mix of one to three of {shelf} paints in up to {drops} drops",
        _ => $"every mix of one or two of {shelf} paints in up to {drops} drops, and of three among the {threeFrom} that serve most areas",
    }}");

    private static (RecipeCloud Cloud, int Drops, int ThreeFrom) Cloud(SearchShelf shelf, Scheme scheme, IReadOnlyList<Demand> demands, CancellationToken cancellation)
    {
        // Fewer drops, where even the pairs would be too many.
        var (paints, n) = (scheme.PaintsPerMix, (long)shelf.Paints.Length);
        var drops = Math.Max(scheme.Drops, demands.Max(demand => demand.Drops));
        while (paints >= 2 && drops > 2 && n * (n - 1) / 2 * RecipeCloud.Pairs(drops).Count() > MostRecipes)
        {
            drops--;
        }

        var perTriple = paints < 3 ? 1 : Math.Max(1, RecipeCloud.Triples(drops).Count());
        var three = shelf.Paints.Length;
        while (three >= 3 && (long)three * (three - 1) * (three - 2) / 6 * perTriple > MostRecipes)
        {
            three--;
        }

        if (paints < 3 || three == shelf.Paints.Length)
        {
            return (RecipeCloud.Of(shelf, paints, drops, [.. Enumerable.Range(0, three)], cancellation), drops, three);
        }

        // Three paints among those that serve most demands already, alone or in pairs.
        var pairs = RecipeCloud.Of(shelf, 2, drops, [], cancellation);
        var serves = new int[shelf.Paints.Length];
        foreach (var demand in Sample(demands))
        {
            var places = new HashSet<int>();
            foreach (var (recipe, _, _) in pairs.Near(demand.Aim, scheme.Tolerance))
            {
                places.Add(recipe.A);
                places.UnionWith(recipe.Paints > 1 ? [recipe.B] : Array.Empty<int>());
            }

            foreach (var place in places)
            {
                serves[place]++;
            }
        }

        int[] busiest = [.. Enumerable.Range(0, serves.Length).OrderByDescending(place => serves[place]).ThenBy(place => place).Take(three).Order()];
        return (RecipeCloud.Of(shelf, paints, drops, busiest, cancellation), drops, three);
    }

    // A few hundred demands, evenly picked, tell what a shelf is used for.
    private static IEnumerable<Demand> Sample(IReadOnlyList<Demand> demands)
    {
        const int enough = 300;
        var step = Math.Max(1, demands.Count / enough);
        return demands.Where((demand, i) => i % step == 0 && demand is { Given: null, Glaze: null });
    }

    private static PaletteOption GivenOption(SearchShelf shelf, Demand demand, Recipe given)
    {
        var places = given.Parts.Where(part => part.Paint.Kind == PaintKind.Paint)
            .Select(part => Array.FindIndex(shelf.Paints, paint => paint.Id == part.Paint.Id)).Order().ToArray();
        if (places.Length > 0 && places[0] < 0)
        {
            throw new ArgumentException($"'{given}' of '{demand.Key}' names a paint that is not on the shelf.");
        }

        return demand.Glaze is { } goal
            ? new PaletteOption(places, given.LetDown(goal.Medium ?? 0, 0), 0, goal.MostCoats)
            : new PaletteOption(places, given, 0);
    }

    // The best recipe of each set of paints, without the sets of which a part does as well.
    private static (Candidate Recipe, double DeltaE00)[] Ways(RecipeCloud cloud, Demand demand, double radius)
    {
        var best = new Dictionary<(int, int, int), (Candidate Recipe, double DeltaE00)>();
        foreach (var (recipe, lab, difference) in cloud.Near(demand.Aim, radius))
        {
            if (recipe.Drops > demand.Drops || lab.Chroma > demand.ChromaAtMost)
            {
                continue;
            }

            var set = SetOf(recipe);
            if (!best.TryGetValue(set, out var there) || Simpler(recipe, difference, there.Recipe, there.DeltaE00))
            {
                best[set] = (recipe, difference);
            }
        }

        if (best.Count == 0)
        {
            var (recipe, difference) = cloud.Nearest(demand.Aim, demand.ChromaAtMost);
            best.Add(SetOf(recipe), (recipe, difference));
        }

        bool IsBeaten((int A, int B, int C) set, double difference)
        {
            bool By(int a, int b) => best.TryGetValue((a, b, -1), out var part) && part.DeltaE00 <= difference;
            return set.C >= 0
                ? By(set.A, -1) || By(set.B, -1) || By(set.C, -1) || By(set.A, set.B) || By(set.A, set.C) || By(set.B, set.C)
                : set.B >= 0 && (By(set.A, -1) || By(set.B, -1));
        }

        return [.. best.Where(entry => !IsBeaten(entry.Key, entry.Value.DeltaE00))
            .OrderBy(entry => entry.Value.DeltaE00).ThenBy(entry => entry.Key)
            .Select(entry => entry.Value)];
    }

    // The sets of paints that come within the tolerance, or as near as the shelf does.
    private static int[][] Sets(RecipeCloud cloud, Demand demand, double tolerance) =>
        [.. Ways(cloud, demand, tolerance).Select(way => Enumerable.Range(0, way.Recipe.Paints).Select(i => way.Recipe[i].Place).ToArray())];

    private static (int, int, int) SetOf(Candidate recipe) => (recipe.A, recipe.Paints > 1 ? recipe.B : -1, recipe.Paints > 2 ? recipe.C : -1);

    // Within what an eye does not see the fewer drops win.
    private static bool Simpler(Candidate one, double oneDifference, Candidate other, double otherDifference)
    {
        var steps = ((int)(oneDifference / MatchOptions.Unseen)).CompareTo((int)(otherDifference / MatchOptions.Unseen));
        return (steps != 0 ? steps : one.Drops.CompareTo(other.Drops)) switch
        {
            0 => oneDifference < otherDifference,
            var order => order < 0,
        };
    }

    // The nearest third as they are; of the others first those within the tolerance that need fewest bottles beyond a small palette of the whole scheme.
    private static (Candidate Recipe, double DeltaE00)[] Few((Candidate Recipe, double DeltaE00)[] ways, int most, double tolerance, bool[] core)
    {
        int Beyond(Candidate recipe) => Enumerable.Range(0, recipe.Paints).Count(i => !core[recipe[i].Place]);
        var nearest = most / 3;
        return [.. ways.Take(nearest)
            .Concat(ways.Skip(nearest)
                .OrderBy(way => way.DeltaE00 > tolerance).ThenBy(way => Beyond(way.Recipe)).ThenBy(way => way.Recipe.Paints).ThenBy(way => way.DeltaE00)
                .Take(most - nearest))
            .OrderBy(way => way.DeltaE00)];
    }

    internal static PaletteOption OptionOf(SearchShelf shelf, Candidate recipe, double difference) =>
        new([.. Enumerable.Range(0, recipe.Paints).Select(i => recipe[i].Place)], shelf.RecipeOf(recipe), difference);
}

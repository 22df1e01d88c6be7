using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>From the recipes near the best to the few that are answered.</summary>
internal sealed class Answers(SearchShelf shelf, MatchTarget target, MatchOptions options)
{
    /// <summary>Recipes up to this step of <see cref="MatchOrder"/> are worth an answer: with the usual tolerance, up to 2 CIEDE2000 above the best.</summary>
    public const int LastStep = 3;

    /// <summary>Paints whose hiding layers differ by less are of one kind, CIEDE2000: one may stand in for the other.</summary>
    public const double OneKind = 3;

    private readonly ViewingCondition _condition = options.View.Condition;
    private readonly Lab _aim = target.Under(options.View.Condition);
    private readonly Lab[] _alone = [.. shelf.Paints.Select((_, place) => shelf.ColorOf(Candidate.Of(place, 1)))];

    /// <summary>The first of each kind, in the painter's order.</summary>
    public IReadOnlyList<Match> Choose(IReadOnlyList<(Candidate Candidate, double DeltaE00)> found, double best)
    {
        var chosen = new List<Candidate>();

        // What costs little to know comes first in the order, so the rest is asked only of those still level.
        var groups = found
            .GroupBy(one => (Step: MatchOrder.StepOf(one.DeltaE00, best, options.Tolerance), one.Candidate.Paints, one.Candidate.Drops))
            .Where(group => group.Key.Step <= LastStep)
            .OrderBy(group => group.Key);
        foreach (var group in groups)
        {
            var level = group.Select(one => StandingOf(one.Candidate, one.DeltaE00, best)).Order();
            chosen.AddRange(level.Select(standing => standing.Candidate).Where(candidate => IsNewKind(candidate, chosen)).TakeWhile(_ => chosen.Count < options.Answers));
            if (chosen.Count >= options.Answers)
            {
                break;
            }
        }

        return [.. chosen.Select(MatchOf)];
    }

    /// <summary>The best that the paints of one of the matches reach when drops may be divided.</summary>
    public Match Undivided(IReadOnlyList<Match> matches)
    {
        var places = shelf.Paints.Select((paint, place) => (paint.Id, place)).ToDictionary(pair => pair.Id, pair => pair.place);
        var (parts, _) = matches
            .Select(match => match.Recipe.Parts.OrderBy(part => places[part.Paint.Id]).ToArray())
            .Select(parts => (Set: parts.Select(part => places[part.Paint.Id]).ToArray(), Known: parts.Select(part => part.Parts / parts.Sum(other => other.Parts)).ToArray()))
            .Select(one => (one.Set, Optimum: UndividedOptimum.Find(shelf, one.Set, one.Known, target, _condition)))
            .OrderBy(one => one.Optimum.DeltaE00)
            .Select(one => (one.Set.Zip(one.Optimum.Shares, (place, share) => new Part(shelf.Paints[place], share)), one.Optimum.DeltaE00))
            .First();
        return Describe(new Recipe(parts.Where(part => part.Parts > 0).OrderByDescending(part => part.Parts)), harm: null);
    }

    private MatchOrder StandingOf(Candidate candidate, double difference, double best) => new(
        MatchOrder.StepOf(difference, best, options.Tolerance), candidate.Paints, candidate.Drops,
        MatchOrder.WholeSteps(WorstDrop(candidate).DeltaE00), MatchOrder.WholeSteps(WorstLight(candidate).DeltaE00),
        WeakestGrade(candidate), difference, candidate);

    private (int Paint, Lab Color, double DeltaE00) WorstDrop(Candidate candidate)
    {
        var worst = (Paint: 0, Color: default(Lab), DeltaE00: double.NegativeInfinity);
        for (var i = 0; i < candidate.Paints; i++)
        {
            var color = shelf.ColorOf(candidate.WithOneMore(i));
            var difference = DeltaE2000.Between(_aim, color);
            if (difference > worst.DeltaE00)
            {
                worst = (i, color, difference);
            }
        }

        return worst;
    }

    private LightDifference WorstLight(Candidate candidate)
    {
        Span<double> seen = stackalloc double[SpectralGrid.Bands];
        shelf.Reflect(candidate, seen);
        return WorstLight(new Reflectance(seen));
    }

    private LightDifference WorstLight(Reflectance seen) => Lamps.Usual
        .Select(lamp => _condition with { Illuminant = lamp })
        .Prepend(_condition)
        .Distinct()
        .Select(light =>
        {
            var weights = TristimulusWeights.For(light);
            return new LightDifference(light, DeltaE2000.Between(target.Under(light), Lab.FromXyz(weights.ToXyz(seen), weights.White)));
        })
        .MaxBy(difference => difference.DeltaE00)!;

    private Grade WeakestGrade(Candidate candidate) =>
        Enumerable.Range(0, candidate.Paints).Min(i => shelf.Paints[candidate[i].Place].Grade);

    // Of one kind: every paint of the one is in the other, or has a look-alike there.
    private bool IsNewKind(Candidate candidate, List<Candidate> chosen) =>
        chosen.TrueForAll(other => !Covers(candidate, other) && !Covers(other, candidate));

    private bool Covers(Candidate some, Candidate others)
    {
        for (var i = 0; i < some.Paints; i++)
        {
            var covered = false;
            for (var j = 0; j < others.Paints && !covered; j++)
            {
                var (p, q) = (some[i].Place, others[j].Place);
                covered = p == q || DeltaE2000.Between(_alone[p], _alone[q]) < OneKind;
            }

            if (!covered)
            {
                return false;
            }
        }

        return true;
    }

    private Match MatchOf(Candidate candidate)
    {
        var worst = WorstDrop(candidate);
        var harm = candidate.Paints == 1
            ? null
            : new DropHarm(shelf.Paints[candidate[worst.Paint].Place], worst.DeltaE00, ColorShift.Between(shelf.ColorOf(candidate), worst.Color));
        return Describe(shelf.RecipeOf(candidate), harm);
    }

    private Match Describe(Recipe recipe, DropHarm? harm)
    {
        var prediction = Prediction.Of(recipe, options.View);
        return new Match(
            recipe, prediction.Appearance, DeltaE2000.Between(_aim, prediction.Appearance.Lab), prediction.ExpectedError,
            harm, WorstLight(prediction.Appearance.Reflectance));
    }
}

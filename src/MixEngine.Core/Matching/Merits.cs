using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>What the painter's order asks of a recipe beside its difference: what a drop too many does, how it holds under other lamps, how well its paints are known.</summary>
internal sealed class Merits(SearchScope scope, MatchTarget target, MatchOptions options)
{
    private readonly SearchShelf _shelf = scope.Shelf;
    private readonly MatchObjective _objective = scope.Objective;

    private readonly ObjectiveLight[] _lamps =
    [
        .. Lamps.Usual.Select(lamp => options.View.Condition with { Illuminant = lamp })
            .Concat(scope.Objective.Lights.Select(light => light.Condition))
            .Distinct()
            .Select(condition => new ObjectiveLight(condition, TristimulusWeights.For(condition), target.Under(condition), 1)),
    ];

    /// <summary>Where a candidate stands in the painter's order.</summary>
    public MatchOrder StandingOf(Candidate candidate, double difference, int step) => new(
        step, candidate.Paints, candidate.Drops,
        MatchOrder.WholeSteps(WorstDrop(candidate).DeltaE00), MatchOrder.WholeSteps(WorstLight(candidate).DeltaE00),
        WeakestGrade(candidate), difference, candidate);

    /// <summary>What one drop too many does at its worst; nothing where another drop changes nothing.</summary>
    public DropHarm? Harm(Candidate candidate)
    {
        var (paint, difference) = WorstDrop(candidate);
        return paint < 0 || (candidate.Paints == 1 && _shelf.Start is null)
            ? null
            : new DropHarm(_shelf.Paints[candidate[paint].Place], difference, ColorShift.Between(ColorOf(candidate), ColorOf(candidate.WithOneMore(paint))));
    }

    /// <summary>Under which lamp a reflectance differs most from the target.</summary>
    public LightDifference WorstLight(ReadOnlySpan<double> seen)
    {
        var worst = default(LightDifference);
        foreach (var lamp in _lamps)
        {
            var difference = Math.Round(lamp.DifferenceOf(seen), 9);
            worst = worst is null || difference > worst.DeltaE00 ? new(lamp.Condition, difference) : worst;
        }

        return worst!;
    }

    private (int Paint, double DeltaE00) WorstDrop(Candidate candidate)
    {
        var worst = (Paint: -1, DeltaE00: scope.DifferenceOf(candidate));
        for (var i = 0; i < candidate.Paints; i++)
        {
            var difference = scope.DifferenceOf(candidate.WithOneMore(i));
            worst = worst.Paint < 0 || difference > worst.DeltaE00 ? (i, difference) : worst;
        }

        return worst;
    }

    private LightDifference WorstLight(Candidate candidate)
    {
        Span<double> seen = stackalloc double[SpectralGrid.Bands];
        _shelf.Reflect(candidate, seen);
        return WorstLight(seen);
    }

    private Lab ColorOf(Candidate candidate)
    {
        Span<double> seen = stackalloc double[SpectralGrid.Bands];
        _shelf.Reflect(candidate, seen);
        var light = _objective.Lights[0];
        return Lab.FromXyz(light.Weights.ToXyz(seen), light.Weights.White);
    }

    // Of the paints added: what is on the palette is there anyway. A medium needs no evidence.
    private Grade WeakestGrade(Candidate candidate)
    {
        var weakest = Grade.History;
        for (var i = 0; i < candidate.Paints; i++)
        {
            var paint = _shelf.Paints[candidate[i].Place];
            weakest = paint.Kind == PaintKind.Paint && paint.Grade < weakest ? paint.Grade : weakest;
        }

        return weakest;
    }
}

using MixEngine.Core;

namespace MixEngine.Accuracy;

/// <summary>The ways in which the measured paints are calibrated and tried.</summary>
internal sealed class Protocols(MeasuredMixtures mixtures, Beliefs beliefs)
{
    private readonly MeasuredSample[] _masstones = [.. mixtures.Samples.Where(sample => sample.IsMasstone)];
    private readonly MeasuredSample[] _blends = [.. mixtures.Samples.Where(sample => !sample.IsMasstone)];

    /// <summary>Paints as entered: names without any knowledge.</summary>
    private Paint[] Entered { get; } = [.. mixtures.Paints.Select(name => new Paint { Id = name, Name = name, Optics = AbsorptionScattering.Clear, Grade = Grade.None, DropsPerMl = Paint.ConventionalDropsPerMl })];

    /// <summary>Masstones and one let-down of each paint, chosen by the engine's own advice before any mixture is looked at.</summary>
    public Score OneLetDown()
    {
        var chosen = Advised();
        var learnt = Learn(_masstones.Concat(chosen));
        return new Score("one-letdown", Predict(_blends.Except(chosen), learnt));
    }

    /// <summary>The let-down of each paint that advice names first.</summary>
    public MeasuredSample[] Advised()
    {
        var known = Learn(_masstones);
        return LetDowns((paint, candidates) =>
        {
            var best = SwatchAdvice.Among(known, paint, candidates.Select(candidate => candidate.Parts))[0];
            return candidates.First(candidate => candidate.Parts == best.Parts);
        });
    }

    // One let-down for each paint: with the white that most blends are made with where there is one, else any blend of it.
    private MeasuredSample[] LetDowns(Func<string, MeasuredSample[], MeasuredSample> choose)
    {
        var white = _masstones.Where(sample => sample.HidingLab().L > 80)
            .MaxBy(sample => _blends.Count(blend => blend.Parts.Any(part => part.PaintId == sample.Parts[0].PaintId)))?.Parts[0].PaintId;
        var chosen = new List<MeasuredSample>();
        foreach (var paint in mixtures.Paints.Where(paint => paint != white))
        {
            var own = _blends.Where(blend => blend.Parts.Any(part => part.PaintId == paint)).ToArray();
            var letDowns = own.Where(blend => blend.Parts.Any(part => part.PaintId == white)).ToArray();
            if (own.Length > 0)
            {
                chosen.Add(choose(paint, letDowns.Length > 0 ? letDowns : own));
            }
        }

        return [.. chosen.Distinct()];
    }

    /// <summary>Every blend predicted from all others.</summary>
    public Score LeaveOneOut() => new("leave-one-out", [.. _blends.AsParallel().AsOrdered().Select(blend => HeldOut.Of(blend, Learn(mixtures.Samples.Where(sample => sample != blend))))]);

    /// <summary>The colour of each masstone and nothing else.</summary>
    public Score ColorOnly()
    {
        var learnt = Characterization.Of(Entered, [.. _masstones.Select(sample => sample.ColorOnly())], beliefs);
        var known = _masstones.Select(sample => sample.Parts[0].PaintId).ToHashSet();
        return new Score("color-only", Predict(_blends.Where(blend => blend.Parts.All(part => known.Contains(part.PaintId))), learnt));
    }

    /// <summary>Masstones and those let-downs of each paint, with the white, that are nearest to a share.</summary>
    public Score Nearest(string name, double share)
    {
        var chosen = LetDowns((paint, candidates) => candidates.MinBy(blend =>
            Math.Abs(Math.Log(blend.Parts.First(part => part.PaintId == paint).Parts / blend.Parts.Sum(part => part.Parts) / share)))!);
        return new Score(name, Predict(_blends.Except(chosen), Learn(_masstones.Concat(chosen))));
    }

    public Score Fixed(string name, string ids)
    {
        var chosen = _blends.Where(blend => ids.Split(' ').Contains(blend.Id)).ToArray();
        return new Score(name, Predict(_blends.Except(chosen), Learn(_masstones.Concat(chosen))));
    }

    /// <summary>How often a swatch whose label was made wrong is the first one named; one line of words for each miss.</summary>
    public (int Planted, int First, IReadOnlyList<string> Misses) WrongLabels(int count)
    {
        var outcomes = Enumerable.Range(0, count).AsParallel().AsOrdered().Select(seed =>
        {
            // Another paint, or the shares of another blend: what happens when cards are mixed up.
            var random = new Random(seed);
            var victim = _blends[random.Next(_blends.Length)];
            var others = _blends.Where(blend => !SameLabel(blend, victim)).ToArray();
            var wrong = others[random.Next(others.Length)].Parts;
            var samples = mixtures.Samples.Select(sample => sample == victim ? sample with { Parts = wrong } : sample);
            var learnt = Learn(samples);
            var first = learnt.Suspects.FirstOrDefault()?.Swatch.FilmId;
            return (Found: first == victim.Id, Words: $"{victim.Id} labelled {string.Join(" + ", wrong.Select(part => $"{part.Parts} {part.PaintId}"))}: first named {first ?? "none"}");
        }).ToArray();
        return (count, outcomes.Count(outcome => outcome.Found), [.. outcomes.Where(outcome => !outcome.Found).Select(outcome => outcome.Words)]);
    }

    // The same paints in nearly the same shares are no wrong label.
    private static bool SameLabel(MeasuredSample a, MeasuredSample b) =>
        a.Parts.Select(part => part.PaintId).ToHashSet().SetEquals(b.Parts.Select(part => part.PaintId))
        && a.Parts.All(part => Math.Abs(Math.Log(part.Parts / b.Parts.First(other => other.PaintId == part.PaintId).Parts)) < 0.5);

    private Characterization Learn(IEnumerable<MeasuredSample> samples) =>
        Characterization.Of(Entered, [.. samples.SelectMany(sample => sample.Films())], beliefs);

    private static HeldOut[] Predict(IEnumerable<MeasuredSample> blends, Characterization learnt) => [.. blends.Select(blend => HeldOut.Of(blend, learnt))];
}

using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>Looks for what darkens and lightens a mid-tone: every paint of the shelf added to it, and every two of those that do best.</summary>
internal sealed class RampWings(Recipe middle, Lab lab, IReadOnlyList<Paint> shelf, View view, ColorRampOptions options)
{
    /// <summary>Paints of which pairs are tried too.</summary>
    private const int Paired = 6;

    /// <summary>Sides of either kind among which the pair of fewest paints is looked for.</summary>
    private const int Shortlist = 24;

    /// <summary>Hues within so many degrees of the one wanted tell what chroma the shelf allows.</summary>
    private const double NearHue = 25;

    /// <summary>A hue that is off by less, in the units of CIE 1994, is kept (common practice, no source).</summary>
    private const double HueKept = 4;

    /// <summary>Below this chroma there is no hue to keep and no chroma to lose.</summary>
    private const double Hued = 8;

    /// <summary>A side that ends further than this from the lightness aimed at stops short.</summary>
    public const double ShortBy = 5;

    // Lightness is told in steps of so much where chromas are compared.
    private const double Bin = 4;

    private sealed record Side(Recipe Added, (Recipe Recipe, Lab Lab)[] Steps);

    /// <summary>The best shadow and the best light, together from the fewest paints that keep hue and chroma.</summary>
    public (RampWing? Shadow, RampWing? Light) Pair(double darkest, double lightest, CancellationToken cancellation)
    {
        var shadows = Wings(darkest, cancellation);
        var lights = Wings(lightest, cancellation);
        if (shadows.Count == 0 || lights.Count == 0)
        {
            return (shadows.Count == 0 ? null : shadows[0].Wing, lights.Count == 0 ? null : lights[0].Wing);
        }

        var best =
            from shadow in shadows
            from light in lights
            let paints = middle.Parts.Concat(shadow.Wing.Added.Parts).Concat(light.Wing.Added.Parts).Select(part => part.Paint.Id).Distinct().Count()
            let faults = shadow.Faults + light.Faults
            orderby faults, paints, shadow.Cost + light.Cost
            select (shadow.Wing, light.Wing);
        return best.First();
    }

    // One side's candidates, the best first.
    private List<(RampWing Wing, int Faults, double Cost)> Wings(double aim, CancellationToken cancellation)
    {
        var up = aim > lab.L;
        bool Leads(Lab step) => up ? step.L > lab.L : step.L < lab.L;
        Side? SideOf(Recipe added)
        {
            cancellation.ThrowIfCancellationRequested();
            if (RampLeg.AreSame(middle, added))
            {
                return null;
            }

            // Along the leg as far as the lightness aimed at; what turns back is left out.
            var steps = new List<(Recipe Recipe, Lab Lab)>();
            var reached = lab.L;
            var ends = added.Total <= options.Ramp.Drops ? new[] { added } : [];
            foreach (var recipe in new RampLeg(middle, added).WholeDrops(options.Ramp.Drops).Select(mixture => mixture.Recipe).Concat(ends))
            {
                var step = Prediction.LabOf(recipe, view);
                if (up ? step.L > reached : step.L < reached)
                {
                    steps.Add((recipe, step));
                    reached = step.L;
                    if (up ? reached >= aim : reached <= aim)
                    {
                        break;
                    }
                }
            }

            return steps.Count == 0 || !Leads(steps[^1].Lab) ? null : new Side(added, [.. steps]);
        }

        var paints = shelf.Where(paint => paint.Kind == PaintKind.Paint).ToArray();
        var singles = paints.Select(paint => SideOf(Recipe.Of(paint))).OfType<Side>().ToArray();
        var allowed = Allowed(singles, aim);
        (RampWing Wing, int Faults, double Cost)[] ranked = [.. singles.Select(side => Weigh(side, aim, allowed)).OrderBy(wing => wing.Cost)];

        // Two paints together: of those that do best alone, at 2 + 1, 1 + 1 and 1 + 2.
        var chosen = ranked.Take(Paired).Select(wing => wing.Wing.Added.Parts[0].Paint).ToArray();
        var pairs =
            from i in Enumerable.Range(0, chosen.Length)
            from j in Enumerable.Range(i + 1, chosen.Length - i - 1)
            from parts in new[] { (2, 1), (1, 1), (1, 2) }
            select SideOf(new Recipe([new Part(chosen[i], parts.Item1), new Part(chosen[j], parts.Item2)]));
        return [.. ranked.Concat(pairs.OfType<Side>().Select(side => Weigh(side, aim, allowed))).OrderBy(wing => wing.Faults).ThenBy(wing => wing.Cost).Take(Shortlist)];
    }

    // The largest chroma near the hue wanted, by lightness.
    private Dictionary<int, double> Allowed(IEnumerable<Side> sides, double aim) =>
        sides.SelectMany(side => side.Steps).Where(step => HueOff(step.Lab, aim) is null or <= NearHue)
            .GroupBy(step => (int)(step.Lab.L / Bin))
            .ToDictionary(bin => bin.Key, bin => bin.Max(step => step.Lab.Chroma));

    private (RampWing Wing, int Faults, double Cost) Weigh(Side side, double aim, Dictionary<int, double> allowed)
    {
        var (kept, off, excess) = (1.0, 0.0, 0.0);
        var (before, widest) = (lab.L, 0.0);
        foreach (var (_, step) in side.Steps)
        {
            // What is to be kept: the mid-tone's chroma, as far as the shelf allows.
            var wanted = Math.Min(lab.Chroma, allowed.GetValueOrDefault((int)(step.L / Bin)));
            if (wanted > Hued)
            {
                kept = Math.Min(kept, step.Chroma / wanted);
            }

            // The hue step, and more chroma than the mid-tone has, weighted as in CIE 1994.
            var degrees = HueOff(step, aim) ?? 0;
            off += 2 * step.Chroma * Math.Sin(degrees / 2 * Math.PI / 180) / (1 + 0.015 * step.Chroma) / side.Steps.Length;
            excess += Math.Max(0, step.Chroma - lab.Chroma) / (1 + 0.045 * lab.Chroma) / side.Steps.Length;

            widest = Math.Max(widest, Math.Abs(step.L - before));
            before = step.L;
        }

        var end = side.Steps[^1];
        var wing = new RampWing(side.Added, end.Recipe, end.Lab.L, kept, off);

        // A side that stops short counts most; then what does not keep hue or chroma, or leaps where drops are too coarse.
        var stops = Math.Abs(end.Lab.L - aim) > ShortBy;
        var leaps = widest > 0.5 * Math.Abs(aim - lab.L);
        var faults = (stops ? 3 : 0) + (kept < options.ChromaShare ? 1 : 0) + (off > HueKept ? 1 : 0) + (leaps ? 1 : 0);
        return (wing, faults, off + excess + 10 * (1 - kept) + 0.5 * Math.Abs(end.Lab.L - aim));
    }

    // Degrees from the hue wanted at this lightness; null where there is no hue.
    private double? HueOff(Lab step, double aim)
    {
        var way = Math.Clamp((step.L - lab.L) / Math.Abs(aim - lab.L), -1, 1);
        if (step.Chroma < Hued || step.HueDegrees is not { } hue || lab.Chroma < Hued || options.Path.Wanted(lab, way) is not { } wanted)
        {
            return null;
        }

        var degrees = Math.Abs(hue - wanted);
        return Math.Min(degrees, 360 - degrees);
    }
}

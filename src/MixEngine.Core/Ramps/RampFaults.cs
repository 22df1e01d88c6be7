using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>Finds the faults in the sizes of a ramp's steps.</summary>
internal sealed class RampFaults
{
    /// <summary>A step larger than this many times the usual one bands (common practice, no source).</summary>
    public const double Band = StepRemarks.Band;

    /// <summary>No step below this bands, CIEDE2000.</summary>
    public const double SmallestBand = StepRemarks.SmallestBand;

    /// <summary>A step smaller than this share of the usual one is too close (common practice, no source).</summary>
    public const double TooClose = 0.5;

    // A lightness that rounding, not paint, may have lowered.
    private const double SameLightness = 0.01;

    private readonly IReadOnlyList<Lab> _labs;
    private readonly double[] _sizes;
    private readonly double[] _shares;
    private readonly double _usual;

    /// <summary>Takes the steps, dark to light, and how large each is meant to be relative to the others.</summary>
    public RampFaults(IReadOnlyList<Lab> labs, IReadOnlyList<double> weights)
    {
        _labs = labs;
        _sizes = [.. labs.Skip(1).Zip(labs, (to, from) => DeltaE2000.Between(from, to))];
        _shares = [.. _sizes.Zip(weights, (size, weight) => size / weight)];
        _usual = Median(_shares);
    }

    /// <summary>The faults, dark to light.</summary>
    /// <param name="number">The number of a step as the ramp was given.</param>
    public IReadOnlyList<RampFault> Find(Func<int, int> number)
    {
        // The faulty steps, each with the place that is to blame for it.
        var faulty = Enumerable.Range(0, _sizes.Length)
            .Select(step => (Step: step, Kind: KindOf(step)))
            .Where(fault => fault.Kind is not null)
            .Select(fault => (fault.Step, Kind: fault.Kind!.Value, Blamed: Blame(fault.Step)))
            .ToArray();

        // Two faults around one place are one: it sits wrong.
        return
        [
            .. faulty.Where(fault => fault.Blamed is null || faulty.Count(other => other.Blamed == fault.Blamed) == 1).Select(fault => One(fault.Step, fault.Kind, fault.Blamed, number)),
            .. faulty.Where(fault => fault.Blamed is not null).GroupBy(fault => fault.Blamed!.Value).Where(group => group.Count() > 1).Select(group => Misplaced(group.Key, number)),
        ];
    }

    private RampFaultKind? KindOf(int step)
    {
        if (_labs[step + 1].L < _labs[step].L - SameLightness)
        {
            return RampFaultKind.Darker;
        }

        if (_sizes[step] < StepRemarks.HardlySeen || (_sizes.Length > 2 && _shares[step] < TooClose * _usual))
        {
            return RampFaultKind.TooClose;
        }

        return _sizes.Length > 1 && _sizes[step] >= SmallestBand && _shares[step] > Band * _usual ? RampFaultKind.Band : null;
    }

    /// <summary>Which end of a faulty step is to blame: the one that lies less well between its own neighbours. Null where both lie alike: something is missing between.</summary>
    private int? Blame(int step)
    {
        var (lower, upper) = (Imbalance(step), Imbalance(step + 1));
        return Math.Abs(lower - upper) <= 0.25 * Math.Max(lower, upper) ? null : lower > upper ? step : step + 1;
    }

    // Difference of the steps to both neighbours, backward ones counted as negative. The ends lie where they must.
    private double Imbalance(int place)
    {
        if (place == 0 || place == _labs.Count - 1)
        {
            return 0;
        }

        double Signed(int step) => _labs[step + 1].L < _labs[step].L - SameLightness ? -_shares[step] : _shares[step];
        return Math.Abs(Signed(place - 1) - Signed(place));
    }

    private RampFault One(int step, RampFaultKind kind, int? blamed, Func<int, int> number)
    {
        var (from, to, size) = (number(step), number(step + 1), _sizes[step]);
        return new RampFault(kind, blamed is { } place ? number(place) : null, from, to, size, kind switch
        {
            RampFaultKind.Darker => Text($"Step {to} is darker than step {from}: L {_labs[step + 1].L:0.0} after {_labs[step].L:0.0}."),
            RampFaultKind.Band => Text($"From step {from} to {to} bands: {size:0.0} dE00, {_shares[step] / _usual:0.0} times the usual step."),
            _ when size < StepRemarks.HardlySeen => Text($"Step {to} can hardly be told from step {from}: {size:0.0} dE00."),
            _ => Text($"Steps {from} and {to} lie close: {size:0.0} dE00, {100 * _shares[step] / _usual:0} % of the usual step."),
        });
    }

    private RampFault Misplaced(int place, Func<int, int> number)
    {
        // The worse of its two sides comes first.
        var (below, above) = (place - 1, place);
        var farSide = _sizes[below] > _sizes[above] ? below : above;
        var nearSide = below + above - farSide;
        var far = number(farSide == below ? place - 1 : place + 1);
        var near = number(nearSide == below ? place - 1 : place + 1);
        return new RampFault(
            RampFaultKind.Misplaced, number(place), number(farSide), number(farSide + 1), _sizes[farSide],
            Text($"Step {number(place)} sits too far from step {far} ({_sizes[farSide]:0.0} dE00) and too near to step {near} ({_sizes[nearSide]:0.0})."));
    }

    internal static double Median(IReadOnlyList<double> values)
    {
        var sorted = values.Order().ToArray();
        return (sorted[(sorted.Length - 1) / 2] + sorted[sorted.Length / 2]) / 2;
    }

    private static string Text(FormattableString text) => FormattableString.Invariant(text);
}

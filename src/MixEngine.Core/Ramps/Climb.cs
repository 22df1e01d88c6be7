using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>
/// The part of a path that a ramp may use: never darker than before, never lighter than the end. Where mixtures on the way are darker
/// than what comes before them (two colours may darken each other), the climb leaps over them.
/// </summary>
internal sealed class Climb
{
    private readonly (double Position, Lab Coordinates, bool Leap)[] _samples;
    private readonly RampPath _path;

    private Climb((double, Lab, bool)[] samples, RampPath path, StepMeasure measure) => (_samples, _path, Measure) = (samples, path, measure);

    /// <summary>How steps are measured.</summary>
    public StepMeasure Measure { get; }

    /// <summary>The light end.</summary>
    public Place End => new(_samples.Length - 1, 1);

    /// <summary>Whether mixtures were left out.</summary>
    public bool Leaps => _samples.Any(sample => sample.Leap);

    /// <summary>A place on the climb: between sample Index - 1 and sample Index, at share Share of the way; with share 1 it is the sample itself.</summary>
    public readonly record struct Place(int Index, double Share);

    /// <summary>Keeps what climbs.</summary>
    public static Climb Of(IReadOnlyList<(double Position, Lab Lab)> samples, RampPath path, StepMeasure measure)
    {
        var kept = new List<(double, Lab, bool)>();
        var (highest, end) = (double.NegativeInfinity, samples[^1].Lab.L);
        var left = false;
        for (var i = 0; i < samples.Count; i++)
        {
            var (position, lab) = samples[i];
            if (i == samples.Count - 1 || (lab.L >= highest && lab.L <= end))
            {
                kept.Add((position, measure.Coordinates(lab), left));
                highest = lab.L;
                left = false;
            }
            else
            {
                left = true;
            }
        }

        return new Climb([.. kept], path, measure);
    }

    /// <summary>Largest difference of any place from the beginning.</summary>
    public double Farthest() => _samples.Max(sample => Measure.Between(_samples[0].Coordinates, sample.Coordinates)) * 1.001 + 1e-9;

    /// <summary>Difference of a place from the end.</summary>
    public double ToEnd(Place place) => Measure.Between(CoordinatesOf(place), _samples[^1].Coordinates);

    /// <summary>Position on the path.</summary>
    public double PositionOf(Place place) =>
        place.Share == 1 ? _samples[place.Index].Position : Mix(_samples[place.Index - 1].Position, _samples[place.Index].Position, place.Share);

    /// <summary>The coordinates of the mixture at a position, not read from the table.</summary>
    public Lab CoordinatesAt(double position) => Measure.Coordinates(_path.LabAt(position));

    /// <summary>At most about so many places, evenly taken from the table, with all that border a leap.</summary>
    public IReadOnlyList<Place> Thinned(int most)
    {
        var every = Math.Max(1, _samples.Length / most);
        return [.. Enumerable.Range(0, _samples.Length)
            .Where(i => i % every == 0 || i == _samples.Length - 1 || _samples[i].Leap || _samples[i + 1].Leap)
            .Select(i => new Place(i, 1))];
    }

    /// <summary>A place by its distance along the table: the sample of that number, or between it and the next.</summary>
    public Place At(double along)
    {
        var index = Math.Clamp((int)Math.Ceiling(along), 0, _samples.Length - 1);
        return index == 0 ? new Place(0, 1) : new Place(index, along - (index - 1));
    }

    /// <summary>The distance of a place along the table.</summary>
    public static double Along(Place place) => place.Index - 1 + place.Share;

    /// <summary>The places reached by all steps but the last, the beginning included; null where the end is reached before.</summary>
    public Place[]? March(double step, IReadOnlyList<double> weights)
    {
        var places = new Place[weights.Count];
        places[0] = new Place(0, 1);
        for (var i = 1; i < places.Length; i++)
        {
            if (Next(places[i - 1], step * weights[i - 1]) is not { } next)
            {
                return null;
            }

            places[i] = next;
        }

        return places;
    }

    /// <summary>The first place after one that differs from it by so much; null where none does.</summary>
    private Place? Next(Place from, double difference)
    {
        var here = CoordinatesOf(from);
        for (var i = from.Share < 1 ? from.Index : from.Index + 1; i < _samples.Length; i++)
        {
            if (Measure.Between(here, _samples[i].Coordinates) < difference)
            {
                continue;
            }

            // Over a leap there is nothing between.
            if (_samples[i].Leap)
            {
                return new Place(i, 1);
            }

            var (low, high) = (i == from.Index ? from.Share : 0, 1.0);
            while (high - low > 1e-6)
            {
                var middle = (low + high) / 2;
                (low, high) = Measure.Between(here, CoordinatesOf(new Place(i, middle))) < difference ? (middle, high) : (low, middle);
            }

            return new Place(i, high);
        }

        return null;
    }

    /// <summary>The coordinates of a place.</summary>
    public Lab CoordinatesOf(Place place)
    {
        var to = _samples[place.Index].Coordinates;
        if (place.Share == 1)
        {
            return to;
        }

        var from = _samples[place.Index - 1].Coordinates;
        return new Lab(Mix(from.L, to.L, place.Share), Mix(from.A, to.A, place.Share), Mix(from.B, to.B, place.Share));
    }

    private static double Mix(double from, double to, double share) => from + share * (to - from);
}

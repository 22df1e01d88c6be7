using System.Globalization;
using MixEngine.Colorimetry;

namespace MixEngine.Core;

/// <summary>
/// Swatches laid out for fitting: readings of one film together, identical ones once, each with its paints by place, its shares and its
/// way of reading; and for each paint what is believed of it beforehand.
/// </summary>
internal sealed class SwatchShelf
{
    // A paint this light and this neutral counts as a white.
    private const double WhiteLightness = 80;
    private const double WhiteChroma = 12;

    private readonly Dictionary<string, int> _places = [];
    private readonly Dictionary<string, string> _sameAs = [];
    private readonly List<(SpecularMode Specular, Finish? Finish, bool Instrument)> _waysOfReading = [];
    private readonly Paint[] _paints;
    private readonly Swatch[] _used;
    private readonly Beliefs _model;

    public SwatchShelf(Paint[] paints, Swatch[] swatches, Beliefs beliefs)
    {
        _model = beliefs;
        var byId = paints.ToDictionary(paint => paint.Id);
        foreach (var swatch in swatches)
        {
            swatch.Check();
            if (swatch.Parts.FirstOrDefault(part => !byId.ContainsKey(part.PaintId)) is { PaintId: { } missing })
            {
                throw new ArgumentException($"Swatch '{swatch.Id}' names the paint '{missing}', which is not on the shelf; add that paint first, or correct the name.", nameof(swatches));
            }
        }

        if (swatches.GroupBy(swatch => swatch.Id).FirstOrDefault(group => group.Count() > 1) is { } repeated)
        {
            throw new ArgumentException($"Two swatches have the id '{repeated.Key}'; each needs its own.", nameof(swatches));
        }

        // The same reading entered twice says no more than once.
        var first = new Dictionary<string, string>();
        _used = [.. swatches.Where(swatch => swatch.Parts.Any(part => byId[part.PaintId].Kind == PaintKind.Paint)).Where(swatch =>
        {
            var content = ContentOf(swatch);
            if (first.TryAdd(content, swatch.Id))
            {
                return true;
            }

            _sameAs[swatch.Id] = first[content];
            return false;
        })];

        // Places of the paints that are spoken of, or of which nothing at all is known, in the order of the shelf.
        var named = _used.SelectMany(swatch => swatch.Parts).Select(part => part.PaintId).ToHashSet();
        _paints = [.. paints.Where(paint => paint.Kind == PaintKind.Paint && (paint.Grade == Grade.None || named.Contains(paint.Id)))];
        for (var place = 0; place < _paints.Length; place++)
        {
            _places[_paints[place].Id] = place;
        }

        foreach (var swatch in _used)
        {
            var way = WayOf(swatch);
            if (!_waysOfReading.Contains(way))
            {
                _waysOfReading.Add(way);
            }
        }

        Surfaces = [.. _waysOfReading.Select(Usual)];
        PaintBeliefs = [.. _paints.Select(BeliefOf)];
        Samples = [.. _used.GroupBy(swatch => swatch.FilmId is null ? "swatch " + swatch.Id : "film " + swatch.FilmId).Select(group => SampleOf([.. group], byId))];
    }

    /// <summary>What is believed of each paint, by place.</summary>
    public PaintBelief[] PaintBeliefs { get; }

    /// <summary>The samples.</summary>
    public Sample[] Samples { get; }

    /// <summary>Usual surface share of each way of reading, and its standard deviation.</summary>
    public (double Mean, double Deviation)[] Surfaces { get; }

    /// <summary>Ids of the paints, by place.</summary>
    public IEnumerable<string> Ids => _paints.Select(paint => paint.Id);

    /// <summary>The place of a paint; null where no swatch speaks of it.</summary>
    public int? PlaceOf(string paintId) => _places.TryGetValue(paintId, out var place) ? place : null;

    /// <summary>The way in which a paint was mostly read.</summary>
    public int SurfaceOf(int place) => _used.Where(swatch => Names(swatch, place))
        .GroupBy(swatch => _waysOfReading.IndexOf(WayOf(swatch)))
        .OrderByDescending(group => group.Any(swatch => IsMasstone(swatch, place))).ThenByDescending(group => group.Count()).FirstOrDefault()?.Key ?? 0;

    /// <summary>The strongest evidence there is of a paint.</summary>
    public Grade GradeOf(int place) => _used.Where(swatch => Names(swatch, place)).Select(swatch =>
        Pigments(swatch).Count() > 1 && !Pigments(swatch).Any(part => part.PaintId != _paints[place].Id && IsWhite(_places[part.PaintId])) && !IsWhite(place) ? Grade.History
        : swatch.Color.Spectrum is not null ? Grade.Spectra
        : swatch.Backing is not null ? Grade.Drawdown
        : Pigments(swatch).Count() > 1 ? Grade.Ladder
        : Grade.Color).DefaultIfEmpty(Grade.None).Max();

    /// <summary>What has to be known about the evidence of a paint, in plain words.</summary>
    public IEnumerable<string> RemarksOn(int place)
    {
        var own = _used.Where(swatch => Names(swatch, place)).ToArray();
        if (own.Length == 0)
        {
            yield return "Nothing is known of it: neither its colour nor a swatch. Measure it alone, then let down with a white.";
            yield break;
        }

        if (!own.Any(swatch => IsMasstone(swatch, place)))
        {
            yield return "Never measured alone: what it looks like undiluted is inferred from its mixtures.";
        }

        if (own.Any(swatch => Pigments(swatch).Count() > 1) && !IsWhite(place)
            && !own.SelectMany(Pigments).Any(part => IsWhite(_places[part.PaintId])))
        {
            yield return "No let-down with a white: its strength rests on what is known of its partners.";
        }

        if (own.All(swatch => Pigments(swatch).Count() == 1 && swatch.Backing is null))
        {
            yield return "Measured alone only: its tinting strength is a guess. Let it down with a white and measure that.";
        }
    }

    /// <summary>What had to be assumed to use a reading.</summary>
    public string? RemarkOn(Sample sample, int reading)
    {
        var swatch = sample.Swatches[reading];
        var same = _sameAs.Where(pair => pair.Value == swatch.Id).Select(pair => pair.Key).ToArray();
        if (sample.Readings[reading].TooDark && swatch.Specular != SpecularMode.NotStated)
        {
            return string.Create(CultureInfo.InvariantCulture, $"At {sample.Readings[reading].Darkest:0.000} darker than its surface alone would look; its reading was taken to leave out part of the surface reflection.");
        }

        return same.Length > 0 ? $"Entered again as '{string.Join("', '", same)}'; counted once." : null;
    }

    /// <summary>The answer for a swatch that was not used.</summary>
    public SwatchFit NotUsed(Swatch swatch, Dictionary<string, SwatchFit> found) => _sameAs.TryGetValue(swatch.Id, out var same)
        ? found[same] with { Swatch = swatch, Remark = $"The same as '{same}'; counted once." }
        : NoPigment(swatch);

    private static SwatchFit NoPigment(Swatch swatch)
    {
        var lab = swatch.Color.LabUnder(swatch.Color.Condition ?? ViewingCondition.D65Degree10);
        return new SwatchFit(swatch, lab, lab, 0, 0, "No pigment in it: it says nothing of a paint.");
    }

    private Sample SampleOf(Swatch[] group, Dictionary<string, Paint> byId)
    {
        var parts = group[0].Parts;
        if (group.Any(swatch => !swatch.Parts.ToHashSet().SetEquals(parts)))
        {
            throw new ArgumentException($"Swatches '{group[0].Id}' and '{group.First(swatch => !swatch.Parts.ToHashSet().SetEquals(parts)).Id}' are said to be one film ('{group[0].FilmId}') but have different parts; correct the parts, or give them films of their own.");
        }

        // Shares of the dry film, as a prediction would take them.
        var dry = parts.Select(part => part.Parts * DryVolume(byId[part.PaintId], group[0].Dosing)).ToArray();
        var total = dry.Sum();
        var pigments = parts.Select((part, i) => (Part: part, Share: dry[i] / total, Paint: byId[part.PaintId])).Where(part => part.Paint.Kind == PaintKind.Paint)
            .OrderByDescending(part => part.Share).ThenBy(part => part.Paint.Id, StringComparer.Ordinal).ToArray();

        // A paint's strength against that of the most plentiful one differs from mixture to mixture, and so does what really went in.
        var variances = pigments.Skip(1).Select(part =>
        {
            var dose = group[0].Dosing == Dosing.Weighed ? _model.WeighedShare / part.Share : DropScatter.Of(new Part(part.Paint, part.Part.Parts));
            return _model.Strength * _model.Strength + dose * dose;
        }).ToArray();
        var discrepancy = pigments.Length > 1
            ? Beliefs.SmoothCovariance(_model.MixtureShape, _model.MixtureLengthNm, 0, _model.MixtureBand)
            : Beliefs.SmoothCovariance(_model.MasstoneShape, _model.MixtureLengthNm, 0, _model.MixtureBand);
        var readings = group.Select(swatch =>
        {
            var surface = _waysOfReading.IndexOf(WayOf(swatch));
            return new SampleReading(swatch, surface, Surfaces[surface].Mean, _model);
        });
        return new Sample(
            group, [.. readings], [.. pigments.Select(part => _places[part.Paint.Id])], [.. pigments.Select(part => part.Share)], variances, discrepancy, _model);
    }

    private static double DryVolume(Paint paint, Dosing dosing) =>
        paint.VolumeSolids * (dosing == Dosing.Weighed ? 1 : Paint.ConventionalDropsPerMl / (paint.DropsPerMl ?? Paint.ConventionalDropsPerMl));

    private PaintBelief BeliefOf(Paint paint, int place)
    {
        // A measured masstone tells more than the colour a paint was entered with; a hiding one, or one over white, more than a thin one.
        var masstone = _used.Where(swatch => IsMasstone(swatch, place))
            .OrderBy(swatch => swatch.Source).ThenBy(swatch => swatch.Backing is null ? 0 : 1).ThenByDescending(swatch => swatch.Backing?.LabUnder(ViewingCondition.D65Degree10).L ?? 0).FirstOrDefault();
        if (masstone is not null)
        {
            return PaintBelief.From(masstone.Color, new SurfaceReflection(Surfaces[_waysOfReading.IndexOf(WayOf(masstone))].Mean), paint.Opacity, _model);
        }

        return paint.Grade != Grade.None ? PaintBelief.From(paint.Optics) : PaintBelief.Unknown(_model);
    }

    private bool IsWhite(int place)
    {
        var belief = PaintBeliefs[place];
        var weights = TristimulusWeights.For(ViewingCondition.D65Degree10);
        var seen = belief.LogRatio.Select(q => Math.Clamp(new SurfaceReflection(0.5).ToMeasured(KubelkaMunk.OpaqueReflectance(Math.Exp(q), 1)), 0, 1)).ToArray();
        var lab = Lab.FromXyz(weights.ToXyz(seen), weights.White);
        return lab.L > WhiteLightness && lab.Chroma < WhiteChroma;
    }

    private IEnumerable<SwatchPart> Pigments(Swatch swatch) => swatch.Parts.Where(part => _places.ContainsKey(part.PaintId));

    private bool Names(Swatch swatch, int place) => swatch.Parts.Any(part => part.PaintId == _paints[place].Id);

    private bool IsMasstone(Swatch swatch, int place) => Names(swatch, place) && Pigments(swatch).Count() == 1;

    private static (SpecularMode, Finish?, bool) WayOf(Swatch swatch) => (swatch.Specular, swatch.Finish, swatch.Source == ReadingSource.Instrument);

    private (double, double) Usual((SpecularMode Specular, Finish? Finish, bool Instrument) way) => way switch
    {
        (SpecularMode.Included, _, _) => (1, _model.StatedShareScatter),
        (SpecularMode.NotStated, _, true) => (_model.UnstatedShare, _model.UnstatedShareScatter),
        var (_, finish, _) => ((finish ?? Finish.Gloss).Surface().CollectedShare, _model.StatedShareScatter),
    };

    private static string ContentOf(Swatch swatch)
    {
        static string Read(MeasuredColor? color) => color is null ? "-"
            : color.Spectrum is { } spectrum ? string.Join(' ', spectrum.Values.ToArray().Select(value => value.ToString("R", CultureInfo.InvariantCulture)))
            : color.LabUnder(color.Condition!) + color.Condition!.ToString();
        var parts = swatch.Parts.OrderBy(part => part.PaintId, StringComparer.Ordinal).Select(part => part.PaintId + "=" + part.Parts.ToString("R", CultureInfo.InvariantCulture));
        return string.Join('|', [string.Join('+', parts), Read(swatch.Color), Read(swatch.Backing), swatch.Dosing.ToString(), swatch.Source.ToString(), swatch.Specular.ToString(), swatch.Finish?.ToString() ?? "-"]);
    }
}

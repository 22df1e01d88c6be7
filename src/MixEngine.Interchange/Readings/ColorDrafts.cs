using MixEngine.Colorimetry;

namespace MixEngine.Interchange;

/// <summary>The colours of one file: first as written, then, when the scale of the whole file is known, finally.</summary>
internal sealed class ColorDrafts(ReadOptions options, ViewingCondition condition, ImportLog log)
{
    private readonly List<ColorDraft> _drafts = [];
    private readonly Dictionary<double[], (int Count, ResampledSpectrum Spectrum)> _resampled = [];
    private ReflectanceScale? _spectra, _xyz;
    private int _several;

    /// <summary>Light and observer of a Lab or XYZ that states none.</summary>
    public ViewingCondition Condition => condition;

    public WavelengthGrids Grids { get; } = new();

    public ColorDraft Add(ColorDraft draft)
    {
        _drafts.Add(draft);
        return draft;
    }

    /// <summary>How many colours a row stated, of which one was taken.</summary>
    public void CountStated(int colors) => _several += colors > 1 ? 1 : 0;

    /// <summary>Decides the scales, once all rows are read.</summary>
    public void Decide()
    {
        _spectra = ScaleDecision.ForSpectra([.. _drafts.Where(d => d.IsSpectrum)], options, log);
        _xyz = ScaleDecision.ForXyz([.. _drafts.Where(d => d.Xyz is not null)], options, log);
        if (_several > 0)
        {
            log.Note($"{Counted.Of(_several, "row states", "rows state")} more than one colour: a spectrum was taken before Lab, Lab before XYZ, XYZ before hex.");
        }
        if (_drafts.Count(d => d.AssumesCondition) is > 0 and int assumed)
        {
            log.Note($"Light and observer are not stated for {Counted.Of(assumed, "colour", "colours")}: {Condition.Illuminant.Name}, {ColorColumns.WordFor(Condition.Observer)} degrees assumed.");
        }
    }

    /// <summary>The colour on its scale; null, with a fault logged, where it is none.</summary>
    public ColorReading? Finish(ColorDraft draft)
    {
        if (draft.IsSpectrum)
        {
            return (draft.Declared ?? _spectra) is { } scale ? FinishSpectrum(draft, scale) : null;
        }
        if (draft.Xyz is { } xyz)
        {
            return (draft.Declared ?? _xyz) switch
            {
                ReflectanceScale.Fraction => FinishXyz(draft, xyz with { Xyz = new Xyz(xyz.Xyz.X * 100, xyz.Xyz.Y * 100, xyz.Xyz.Z * 100) }),
                ReflectanceScale.Percent => FinishXyz(draft, xyz),
                _ => null,
            };
        }
        return draft.Ready;
    }

    private XyzReading? FinishXyz(ColorDraft draft, XyzReading reading)
    {
        if (reading.Xyz.Y <= 100.001)
        {
            return reading;
        }
        log.Fault(draft.Line, "Y", NumberText.Write(reading.Xyz.Y), "0 to 100", "Y of the perfect white is 100: correct the value, or the scale.");
        return null;
    }

    private SpectrumReading? FinishSpectrum(ColorDraft draft, ReflectanceScale scale)
    {
        double[] factors = scale == ReflectanceScale.Percent ? Array.ConvertAll(draft.Values, v => v / 100) : draft.Values;
        int[] above = [.. Enumerable.Range(0, factors.Length).Where(i => factors[i] > 1)];
        int[] below = [.. Enumerable.Range(0, factors.Length).Where(i => factors[i] < 0)];
        string range = scale == ReflectanceScale.Percent ? "0 to 100 percent" : "0 to 1";
        if (above.Length > 0)
        {
            log.Fault(draft.Line, ScaleDecision.BandName(draft.WavelengthsNm[above[0]]), NumberText.Write(draft.Values[above[0]]), range,
                $"Fluorescent, or on another scale{More(above)}: fluorescent paints cannot be computed; correct the value or the declared scale.");
        }
        if (below.Length > 0)
        {
            log.Fault(draft.Line, ScaleDecision.BandName(draft.WavelengthsNm[below[0]]), NumberText.Write(draft.Values[below[0]]), range,
                $"A reflectance is never negative{More(below)}: write 0 where the instrument's noise went below.");
        }
        if (above.Length + below.Length > 0)
        {
            return null;
        }
        var reading = SpectrumReading.Of(draft.WavelengthsNm, factors);
        _resampled[draft.WavelengthsNm] = (_resampled.GetValueOrDefault(draft.WavelengthsNm).Count + 1, reading.Resampled);
        return reading;
    }

    /// <summary>Says which spectra had to be brought to the engine's grid, once all are finished.</summary>
    public void NoteGrids()
    {
        foreach ((int count, ResampledSpectrum spectrum) in _resampled.Values)
        {
            if (spectrum is { FirstMeasuredNm: SpectralGrid.FirstNm, LastMeasuredNm: SpectralGrid.LastNm, SourceStepNm: SpectralGrid.StepNm })
            {
                continue;
            }
            string extended = spectrum.ExtendedBands > 0
                ? $"; the nearest value is repeated in {Counted.Of(spectrum.ExtendedBands, "band", "bands")} beyond what was measured"
                : "";
            log.Note(FormattableString.Invariant($"{Counted.Of(count, "spectrum", "spectra")} measured from {spectrum.FirstMeasuredNm} to {spectrum.LastMeasuredNm} nm, at most {spectrum.SourceStepNm} nm apart: interpolated at {SpectralGrid.FirstNm} to {SpectralGrid.LastNm} nm every {SpectralGrid.StepNm} nm{extended}."));
        }
    }

    private static string More(int[] bands) => bands.Length > 1 ? $" ({bands.Length - 1} more in this spectrum)" : "";
}

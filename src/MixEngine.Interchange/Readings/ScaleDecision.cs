namespace MixEngine.Interchange;

/// <summary>
/// Decides once for a whole table whether numbers are fractions or percent, and refuses where both can be meant:
/// a black in percent looks like a light grey in fractions.
/// </summary>
internal static class ScaleDecision
{
    /// <summary>A spectrum whose largest value is above this is no fraction: even a fluorescent paint stays below (from memory: radiance factors of daylight-fluorescent paints reach about 2 to 3).</summary>
    private const double AboveAnyFraction = 4;

    /// <summary>Neighbouring bands this far apart, one at most 1 and one above 4, are a slipped decimal point and no spectrum.</summary>
    private const double SlippedPoint = 20;

    /// <summary>The scale of the spectra that declare none; null when there is none to decide, or when it cannot be decided and a fault was logged.</summary>
    public static ReflectanceScale? ForSpectra(IReadOnlyList<ColorDraft> spectra, ReadOptions options, ImportLog log)
    {
        if (Declared(spectra, options, out ColorDraft[] open) is { } declared || open.Length == 0)
        {
            return Declared(spectra, options, out _);
        }

        ColorDraft brightest = open.MaxBy(d => d.Values.Max())!;
        ColorDraft darkest = open.MinBy(d => d.Values.Max())!;
        double most = brightest.Values.Max();
        if (most <= 1)
        {
            log.Note(FormattableString.Invariant($"No scale is declared and no reflectance is above 1: read as fractions (the largest is {most})."));
            return ReflectanceScale.Fraction;
        }
        if (most > AboveAnyFraction && darkest.Values.Max() > 1 && open.All(d => Slip(d) is null))
        {
            log.Note(FormattableString.Invariant($"No scale is declared and reflectances reach {most}: read as percent."));
            return ReflectanceScale.Percent;
        }

        ColorDraft odd = open.FirstOrDefault(d => Slip(d) is not null) ?? brightest;
        int band = Slip(odd) ?? Array.IndexOf(odd.Values, odd.Values.Max());
        string reason = most <= AboveAnyFraction
            ? "fluorescent or slipped in fractions, very dark in percent"
            : $"percent here, yet fractions elsewhere (line {darkest.Line} stays below {NumberText.Write(darkest.Values.Max())})";
        log.Fault(odd.Line, BandName(odd.WavelengthsNm[band]), NumberText.Write(odd.Values[band]), "reflectances of one scale, 0 to 1 or percent",
            $"It cannot be decided what is meant: {reason}. Correct the value, or declare the scale: a column \"scale\" with fraction or percent.");
        return null;
    }

    /// <summary>The scale of the tristimulus values that declare none: percent means Y = 100 for white.</summary>
    public static ReflectanceScale? ForXyz(IReadOnlyList<ColorDraft> colors, ReadOptions options, ImportLog log)
    {
        if (Declared(colors, options, out ColorDraft[] open) is { } declared || open.Length == 0)
        {
            return Declared(colors, options, out _);
        }
        ColorDraft brightest = open.MaxBy(d => d.Xyz!.Xyz.Y)!;
        if (brightest.Xyz!.Xyz.Y > 1)
        {
            return ReflectanceScale.Percent;
        }
        log.Fault(brightest.Line, "Y", NumberText.Write(brightest.Xyz.Xyz.Y), "Y of 100 for white",
            "No Y is above 1, so white may be 1 or 100: declare it in a column \"scale\" with fraction or percent.");
        return null;
    }

    public static string BandName(double nm) => $"{NumberText.Write(nm)} nm";

    /// <summary>One declaration in the table holds for the rows that have none; then what the caller said.</summary>
    private static ReflectanceScale? Declared(IReadOnlyList<ColorDraft> drafts, ReadOptions options, out ColorDraft[] open)
    {
        open = [.. drafts.Where(d => d.Declared is null)];
        ReflectanceScale?[] declared = [.. drafts.Select(d => d.Declared).Where(d => d is not null).Distinct()];
        return declared.Length == 1 ? declared[0] : options.Scale;
    }

    /// <summary>The band at which one spectrum changes from fractions to percent or back.</summary>
    private static int? Slip(ColorDraft spectrum)
    {
        double[] values = spectrum.Values;
        for (int i = 1; i < values.Length; i++)
        {
            (double low, double high) = values[i] < values[i - 1] ? (values[i], values[i - 1]) : (values[i - 1], values[i]);
            if (low <= 1 && high > AboveAnyFraction && high > SlippedPoint * low)
            {
                return values[i] > values[i - 1] ? i : i - 1;
            }
        }
        return null;
    }
}

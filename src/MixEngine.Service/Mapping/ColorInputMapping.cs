using System.Globalization;
using MixEngine.Colorimetry;
using MixEngine.Interchange;
using MixEngine.Service.Refusals;

namespace MixEngine.Service.Mapping;

/// <summary>Colours as asked.</summary>
internal static class ColorInputMapping
{
    /// <summary>Largest size of a* and b*: beyond anything a surface can show.</summary>
    public const double MostChromatic = 200;

    /// <summary>Most wavelengths of a spectrum.</summary>
    public const int MostBands = 2000;

    private const string LabPrefix = "lab:";

    /// <summary>The colour given; null, with violations noted, where it is none.</summary>
    /// <param name="input">As sent.</param>
    /// <param name="field">Its field.</param>
    /// <param name="condition">Light and eye for a Lab that states none: those of the request's view.</param>
    /// <param name="violations">Where to note what is wrong.</param>
    public static ColorReading? Read(V1.ColorInput? input, string field, ViewingCondition condition, Violations violations)
    {
        var stated = input is null ? condition : ViewMapping.ReadCondition(input.Illuminant, input.ObserverDegrees, condition, field, violations);
        return input?.ColorCase switch
        {
            V1.ColorInput.ColorOneofCase.Text => FromText(input.Text, $"{field}.text", stated, violations),
            V1.ColorInput.ColorOneofCase.Lab => FromLab(input.Lab, $"{field}.lab", stated, violations),
            V1.ColorInput.ColorOneofCase.Spectrum => FromSpectrum(input.Spectrum, $"{field}.spectrum", violations),
            _ => Refused(field, "No colour is given; give a text such as #5a6b3c or lab:40,-12,20, a Lab, or a spectrum.", violations),
        };
    }

    private static ColorReading? FromText(string text, string field, ViewingCondition condition, Violations violations)
    {
        if (!text.TrimStart().StartsWith(LabPrefix, StringComparison.OrdinalIgnoreCase))
        {
            return HexColor.TryParse(text.Trim(), out var hex)
                ? new HexReading(hex)
                : Refused(field, $"'{Shown.Of(text)}' is no colour; write #5a6b3c, #ccc or lab:40,-12,20.", violations);
        }

        // Three numbers with a decimal point: with a comma nobody could tell where one ends.
        var numbers = text.TrimStart()[LabPrefix.Length..].Split(',');
        Span<double> lab = stackalloc double[3];
        for (var i = 0; i < 3; i++)
        {
            if (numbers.Length != 3 || !double.TryParse(numbers[i], NumberStyles.Float, CultureInfo.InvariantCulture, out lab[i]))
            {
                return Refused(field, $"'{Shown.Of(text)}' is no Lab colour; write three numbers with decimal points after lab:, such as lab:40,-12.5,20.", violations);
            }
        }

        return Checked(new Lab(lab[0], lab[1], lab[2]), field, condition, violations);
    }

    private static ColorReading? FromLab(V1.Lab lab, string field, ViewingCondition condition, Violations violations)
    {
        // Zero is a value like any other; what is not there is not zero.
        foreach (var (name, isThere) in new[] { ("l", lab.HasL), ("a", lab.HasA), ("b", lab.HasB) })
        {
            if (!isThere)
            {
                violations.Add($"{field}.{name}", "It is missing; a Lab needs l, a and b, and a zero must be written.");
            }
        }

        return lab is { HasL: true, HasA: true, HasB: true } ? Checked(new Lab(lab.L, lab.A, lab.B), field, condition, violations) : null;
    }

    private static LabReading? Checked(Lab lab, string field, ViewingCondition condition, Violations violations)
    {
        var own = new Violations();
        own.InRange($"{field}.l", lab.L, 0, 100);
        own.InRange($"{field}.a", lab.A, -MostChromatic, MostChromatic);
        own.InRange($"{field}.b", lab.B, -MostChromatic, MostChromatic);
        violations.Add(own);
        return own.Any ? null : new LabReading(lab, condition);
    }

    private static ColorReading? FromSpectrum(V1.Spectrum spectrum, string field, Violations violations)
    {
        if (spectrum.WavelengthNm.Count != spectrum.Reflectance.Count || spectrum.WavelengthNm.Count is 0 or > MostBands)
        {
            return Refused(field, $"{spectrum.WavelengthNm.Count} wavelengths and {spectrum.Reflectance.Count} reflectances; one of each is needed for 1 to {MostBands} bands.", violations);
        }

        try
        {
            return new SpectrumReading(spectrum.WavelengthNm, spectrum.Reflectance);
        }
        catch (ArgumentException fault)
        {
            return Refused(field, fault.Message.Split(" (Parameter")[0], violations);
        }
    }

    private static ColorReading? Refused(string field, string description, Violations violations)
    {
        violations.Add(field, description);
        return null;
    }
}

using System.Globalization;
using MixEngine.Colorimetry;
using MixEngine.Core;
using MixEngine.Interchange;
using MixEngine.Service.Refusals;
using MixEngine.Service.Shelves;
using MixEngine.Storage;
using SpecularMode = MixEngine.Core.SpecularMode;

namespace MixEngine.Service.Mapping;

/// <summary>Swatches as given and as answered.</summary>
internal static class SwatchMapping
{
    private const string XyzPrefix = "xyz:", DateForm = "yyyy-MM-dd";

    /// <summary>What was said of a swatch; null, with violations noted, where something is wrong with it.</summary>
    public static SwatchEvidence? Read(V1.Swatch? input, string field, Shelf shelf, Violations violations)
    {
        if (input is null)
        {
            violations.Add(field, "No swatch is given; give a recipe and the colour it dried to.");
            return null;
        }

        var own = new Violations();
        var recipe = RecipeMapping.ReadPigmented(input.Recipe, $"{field}.recipe", shelf, own);
        var color = ReadColor(input.Color, $"{field}.color", own);
        var evidence = new SwatchEvidence
        {
            Parts = recipe is null ? [] : PartsOf(recipe),
            Color = color ?? new StoredColor("", "", 0),
            Backing = ReadBacking(input.Backing, $"{field}.backing", own),
            Film = Text(input.Film, $"{field}.film", ImportLimits.NameCharacters, oneLine: true, own),
            ThicknessUm = input.HasThicknessUm ? own.InRange($"{field}.thickness_um", input.ThicknessUm, 0.001, 10_000, "micrometres") : null,
            Coats = input.HasCoats ? (int)own.InRange($"{field}.coats", (double)input.Coats, 1, 100) : null,
            Dosing = Word(input.Dosing, $"{field}.dosing", Words.Dosing, own) ?? Dosing.Drops,
            Source = Word(input.Source, $"{field}.source", Words.Source, own),
            Specular = Word(input.Specular, $"{field}.specular", Words.Specular, own) ?? SpecularMode.NotStated,
            Finish = Word(input.Finish, $"{field}.finish", Words.Finish, own),
            Date = ReadDate(input.Date, $"{field}.date", own),
            Note = Text(input.Note, $"{field}.note", ImportLimits.CellCharacters, oneLine: false, own),
        };
        violations.Add(own);
        return own.Any ? null : evidence;
    }

    /// <summary>The recipe as it is kept: by the paints' names, to nine decimals, as recipes are written.</summary>
    public static IReadOnlyList<StoredPart> PartsOf(Core.Recipe recipe) => [.. recipe.Parts.Select(part => new StoredPart(part.Paint.Name, Math.Round(part.Parts, 9)))];

    /// <summary>"1 kelp + 4 gull white", as it can be read again.</summary>
    public static string RecipeText(SwatchEvidence evidence) => string.Join(" + ", evidence.Parts.Select(part =>
        string.Create(CultureInfo.InvariantCulture, $"{part.Parts:0.#########} {(part.Paint.IndexOfAny(['+', ':']) < 0 ? part.Paint : $"\"{part.Paint}\"")}")));

    /// <summary>The swatch as answered; it may be given back as it is.</summary>
    public static V1.Swatch Write(StoredSwatch stored)
    {
        var evidence = stored.Evidence;
        var swatch = new V1.Swatch
        {
            Id = stored.Id,
            Recipe = new V1.RecipeInput { Text = RecipeText(evidence) },
            Color = WriteColor(evidence.Color),
            Backing = evidence.Backing is { } backing ? WriteColor(backing) : null,
            Film = evidence.Film ?? "",
            Dosing = Words.Dosing.For(evidence.Dosing),
            Source = evidence.Source is { } source ? Words.Source.For(source) : "",
            Specular = evidence.Specular == SpecularMode.NotStated ? "" : Words.Specular.For(evidence.Specular),
            Finish = evidence.Finish is { } finish ? Words.Finish.For(finish) : "",
            Date = evidence.Date?.ToString(DateForm, CultureInfo.InvariantCulture) ?? "",
            Note = evidence.Note ?? "",
        };
        if (evidence.ThicknessUm is { } thickness)
        {
            swatch.ThicknessUm = thickness;
        }

        if (evidence.Coats is { } coats)
        {
            swatch.Coats = coats;
        }

        return swatch;
    }

    private static V1.ColorInput WriteColor(StoredColor stored)
    {
        var input = new V1.ColorInput();
        if (SwatchFromEvidence.ContrastCard.Any(card => card.Name == stored.Text))
        {
            input.Text = stored.Text;
            return input;
        }

        switch (StoredColorText.Read(stored))
        {
            case SpectrumReading spectrum:
                input.Spectrum = new V1.Spectrum { WavelengthNm = { spectrum.WavelengthsNm }, Reflectance = { spectrum.Factors } };
                break;
            case HexReading:
                input.Text = stored.Text;
                break;
            default:
                (input.Text, input.Illuminant, input.ObserverDegrees) = (stored.Text, stored.Illuminant, stored.ObserverDegrees);
                break;
        }

        return input;
    }

    private static StoredColor? ReadBacking(V1.ColorInput? input, string field, Violations violations)
    {
        if (input is null || input is { ColorCase: V1.ColorInput.ColorOneofCase.Text, Text.Length: 0 })
        {
            return null;
        }

        return SwatchFromEvidence.ContrastCard.FirstOrDefault(card => string.Equals(card.Name, input.Text.Trim(), StringComparison.OrdinalIgnoreCase)) is { } card
            ? OfCard(card)
            : ReadColor(input, field, violations);
    }

    /// <summary>As the backing of a contrast card is stored.</summary>
    public static StoredColor OfCard(Primer card) => new(card.Name, ViewingCondition.Default.Illuminant.Name, 2);

    private static StoredColor? ReadColor(V1.ColorInput? input, string field, Violations violations)
    {
        var reading = input is { ColorCase: V1.ColorInput.ColorOneofCase.Text } && input.Text.TrimStart().StartsWith(XyzPrefix, StringComparison.OrdinalIgnoreCase)
            ? ReadXyz(input, field, violations)
            : ColorInputMapping.Read(input, field, ViewingCondition.Default, violations);
        if (input is { ColorCase: V1.ColorInput.ColorOneofCase.Spectrum } && input.Spectrum.Reflectance.Any(factor => factor > 1))
        {
            violations.Add($"{field}.spectrum", "A reflectance above 1 is of a fluorescent paint, or on another scale: fluorescent paints cannot be computed; percent must be divided by 100.");
        }

        return reading is null ? null : StoredColorText.Write(reading);
    }

    private static XyzReading? ReadXyz(V1.ColorInput input, string field, Violations violations)
    {
        var numbers = input.Text.TrimStart()[XyzPrefix.Length..].Split(',');
        var xyz = new double[3];
        for (var i = 0; i < 3; i++)
        {
            if (numbers.Length != 3 || !double.TryParse(numbers[i], NumberStyles.Float, CultureInfo.InvariantCulture, out xyz[i]))
            {
                violations.Add($"{field}.text", $"'{Shown.Of(input.Text)}' is no XYZ colour; write three numbers with decimal points after xyz:, such as xyz:18,20.5,9.");
                return null;
            }
        }

        var own = new Violations();
        var condition = ViewMapping.ReadCondition(input.Illuminant, input.ObserverDegrees, ViewingCondition.Default, field, own);
        own.InRange($"{field}.text", xyz[0], 0, 200);
        own.InRange($"{field}.text", xyz[1], 0, 100);
        own.InRange($"{field}.text", xyz[2], 0, 200);
        violations.Add(own);
        return own.Any ? null : new XyzReading(new Xyz(xyz[0], xyz[1], xyz[2]), condition);
    }

    private static T? Word<T>(string text, string field, Words<T> words, Violations violations) where T : struct, Enum
    {
        var read = words.Read(text);
        if (read is null && text.Trim().Length > 0)
        {
            violations.Add(field, $"'{Shown.Of(text)}' is none of the words for it; use {words.All}, or leave it out.");
        }

        return read;
    }

    private static DateOnly? ReadDate(string text, string field, Violations violations)
    {
        if (DateOnly.TryParseExact(text.Trim(), DateForm, CultureInfo.InvariantCulture, DateTimeStyles.None, out var date))
        {
            return date;
        }

        if (text.Trim().Length > 0)
        {
            violations.Add(field, $"'{Shown.Of(text)}' is no date; write it as year-month-day, such as 2026-11-25.");
        }

        return null;
    }

    // What a table can hold, so that it can be exported.
    private static string? Text(string text, string field, int most, bool oneLine, Violations violations)
    {
        var tidy = text.ReplaceLineEndings("\n").Trim();
        if (tidy.Length > most)
        {
            violations.Add(field, $"It has {tidy.Length} characters; at most {most} are kept.");
        }

        if (tidy.Any(c => char.IsControl(c) && (oneLine || c != '\n')))
        {
            violations.Add(field, $"'{Shown.Of(tidy)}' has a control character in it; leave it out.");
        }

        return tidy.Length == 0 ? null : tidy;
    }
}

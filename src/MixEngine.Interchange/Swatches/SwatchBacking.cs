using MixEngine.Colorimetry;

namespace MixEngine.Interchange;

/// <summary>What lay beneath a film that was measured.</summary>
public sealed record SwatchBacking
{
    private const string LabMark = "lab:";
    private const string SampleMark = "sample:";

    private SwatchBacking(string word) => Word = word;

    /// <summary>The film hides whatever lies beneath.</summary>
    public static SwatchBacking None { get; } = new("none");

    /// <summary>A black, not measured: the black of a contrast card.</summary>
    public static SwatchBacking Black { get; } = new("black");

    /// <summary>A white, not measured: the white of a contrast card.</summary>
    public static SwatchBacking White { get; } = new("white");

    /// <summary>A hex or a Lab colour.</summary>
    /// <exception cref="ArgumentException">Another kind of reading: enter a measured spectrum as a swatch of its own, and name that.</exception>
    public static SwatchBacking OfColor(ColorReading color) =>
        color is HexReading or LabReading
            ? new SwatchBacking("colour") { Color = color }
            : throw new ArgumentException("A backing is a hex, a Lab, or another swatch named by its id.", nameof(color));

    /// <summary>Another swatch of the same table, such as the bare card.</summary>
    public static SwatchBacking OfSample(string sampleId) => new("sample") { SampleId = sampleId };

    /// <summary>"none", "black", "white", "colour" or "sample".</summary>
    public string Word { get; }

    /// <summary>The colour of <see cref="OfColor"/>; null otherwise.</summary>
    public ColorReading? Color { get; private init; }

    /// <summary>The id of <see cref="OfSample"/>; null otherwise.</summary>
    public string? SampleId { get; private init; }

    /// <summary>As tables hold it: "none", "black", "white", "#c9c9c9", "lab:40,-12,20 D65/2" or "sample:card 3".</summary>
    public override string ToString() => Color switch
    {
        HexReading hex => hex.Hex.ToString(),
        LabReading { Lab: var lab } reading =>
            $"{LabMark}{NumberText.Write(lab.L)},{NumberText.Write(lab.A)},{NumberText.Write(lab.B)} {reading.Condition.Illuminant.Name}/{ColorColumns.WordFor(reading.Condition.Observer)}",
        _ => SampleId is null ? Word : SampleMark + SampleId,
    };

    /// <summary>Reads what <see cref="ToString"/> writes; the light of a Lab may be left out (D65/2). Null when it is none of these.</summary>
    public static SwatchBacking? TryParse(string text) => text.Trim().ToLowerInvariant() switch
    {
        "none" or "hiding" => None,
        "black" => Black,
        "white" => White,
        var word when word.StartsWith(SampleMark, StringComparison.Ordinal) && text.Trim()[SampleMark.Length..].Trim() is { Length: > 0 } id => OfSample(id),
        var word when word.StartsWith(LabMark, StringComparison.Ordinal) => TryParseLab(text.Trim()[LabMark.Length..]),
        _ => HexColor.TryParse(text.Trim(), out HexColor hex) ? OfColor(new HexReading(hex)) : null,
    };

    private static SwatchBacking? TryParseLab(string text)
    {
        string[] parts = text.Split([' ', '/'], StringSplitOptions.RemoveEmptyEntries);
        string[] numbers = parts.Length is 1 or 3 ? parts[0].Split(',') : [];
        Illuminant? light = parts.Length == 3 ? ColorColumns.IlluminantOf(parts[1]) : Illuminant.D65;
        Observer? observer = parts.Length == 3 ? ColorColumns.ObserverOf(parts[2]) : Observer.Degree2;
        return numbers.Length == 3 && light is not null && observer is { } eye
            && NumberText.TryRead(numbers[0], out double l) && NumberText.TryRead(numbers[1], out double a) && NumberText.TryRead(numbers[2], out double b)
            && l is >= 0 and <= 100
                ? OfColor(new LabReading(new Lab(l, a, b), new ViewingCondition(light, eye)))
                : null;
    }
}

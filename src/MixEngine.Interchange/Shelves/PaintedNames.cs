using MixEngine.Colorimetry;

namespace MixEngine.Interchange;

/// <summary>For the eye only: the colour that the name of each paint stands on in a workbook. Nothing reads it back.</summary>
internal static class PaintedNames
{
    /// <summary>One for each row; null where the row states no colour that a screen could show as it is.</summary>
    public static IReadOnlyList<HexColor?> Of(ShelfTable table) => [.. table.Rows.Select(row => Of(row.Color))];

    /// <summary>Black or white, whichever contrasts more with it: the contrast ratio of WCAG 2.2.</summary>
    public static HexColor TextOn(HexColor ground)
    {
        var linear = ground.ToSrgb().ToLinear();
        var luminance = 0.2126 * linear.R + 0.7152 * linear.G + 0.0722 * linear.B;
        return (luminance + 0.05) / 0.05 >= 1.05 / (luminance + 0.05) ? new HexColor(0, 0, 0) : new HexColor(255, 255, 255);
    }

    private static HexColor? Of(ColorReading? reading) => reading switch
    {
        HexReading { Hex: var hex } => hex,
        LabReading { Lab: var lab, Condition: var condition } => Shown(lab.ToXyz(WhiteOf(condition)), condition),
        XyzReading { Xyz: var xyz, Condition: var condition } => Shown(xyz, condition),
        SpectrumReading spectrum => Shown(
            TristimulusWeights.For(ViewingCondition.Default).ToXyz(SpectrumResampling.ToGrid([.. spectrum.WavelengthsNm], [.. spectrum.Factors]).Reflectance), ViewingCondition.Default),
        _ => null,
    };

    private static HexColor Shown(Xyz xyz, ViewingCondition condition) => DisplayColor.From(xyz, WhiteOf(condition)).Hex;

    private static Xyz WhiteOf(ViewingCondition condition) => TristimulusWeights.For(condition).White;
}

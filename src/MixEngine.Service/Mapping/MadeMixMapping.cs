using MixEngine.Colorimetry;
using MixEngine.Service.Refusals;
using MixEngine.Service.Shelves;
using MixEngine.Storage;

namespace MixEngine.Service.Mapping;

/// <summary>Mixes really made, as told and as kept.</summary>
internal static class MadeMixMapping
{
    private const int MostParts = 24;
    private const int LongestText = 2000;

    /// <summary>The mix to keep.</summary>
    /// <param name="mix">As sent.</param>
    /// <param name="now">When it was sent.</param>
    /// <param name="violations">Where to note what is wrong.</param>
    public static MadeMix? Read(V1.MadeMix? mix, DateTimeOffset now, Violations violations)
    {
        if (mix is null || mix.Parts.Count is 0 or > MostParts)
        {
            violations.Add("mix.parts", $"{mix?.Parts.Count ?? 0} bottles are named; a mix has 1 to {MostParts}.");
            return null;
        }

        for (var i = 0; i < mix.Parts.Count; i++)
        {
            if (mix.Parts[i].Paint.Trim().Length is 0 or > 200)
            {
                violations.Add($"mix.parts[{i}].paint", "No paint is named; give its name as it stands on the bottle.");
            }

            violations.InRange($"mix.parts[{i}].drops", mix.Parts[i].Drops, 1e-3, 1e5, "drops");
            Short($"mix.parts[{i}].batch", mix.Parts[i].Batch, violations);
        }

        Short("mix.notes", mix.Notes, violations);
        if (mix.Made.Length > 0 && !DateTimeOffset.TryParse(mix.Made, System.Globalization.CultureInfo.InvariantCulture, out _))
        {
            violations.Add("mix.made", $"'{Shown.Of(mix.Made)}' is no moment; write it like 2026-03-01T18:30:00Z, or leave it out for now.");
        }

        var swatch = mix.Swatch is null ? null : ColorInputMapping.Read(mix.Swatch, "mix.swatch", ViewingCondition.Default, violations);
        return violations.Any
            ? null
            : new MadeMix(
                0, mix.Made.Length > 0 ? mix.Made : now.ToString("O", System.Globalization.CultureInfo.InvariantCulture), mix.Run == 0 ? null : mix.Run, mix.Pot == 0 ? null : mix.Pot,
                [.. mix.Parts.Select(part => new MadePart(part.Paint.Trim(), part.Drops, part.Batch.Length > 0 ? part.Batch : null))],
                swatch is null ? null : StoredColorText.Write(swatch), mix.Notes.Length > 0 ? mix.Notes : null);
    }

    /// <summary>A mix as it was kept.</summary>
    public static V1.MadeMix Write(MadeMix mix) => new()
    {
        Id = mix.Key,
        Made = mix.Made,
        Run = mix.Run ?? 0,
        Pot = mix.Pot ?? 0,
        Parts = { mix.Parts.Select(part => new V1.MadePart { Paint = part.Paint, Drops = part.Drops, Batch = part.Batch ?? "" }) },
        Swatch = mix.Swatch is { } swatch ? new V1.ColorInput { Text = swatch.Text, Illuminant = swatch.Illuminant, ObserverDegrees = swatch.ObserverDegrees } : null,
        Notes = mix.Notes ?? "",
    };

    private static void Short(string field, string text, Violations violations)
    {
        if (text.Length > LongestText)
        {
            violations.Add(field, $"It has {text.Length} characters; at most {LongestText} are kept.");
        }
    }
}

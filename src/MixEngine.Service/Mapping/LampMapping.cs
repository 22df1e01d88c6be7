using MixEngine.Colorimetry;
using MixEngine.Core;
using MixEngine.Service.Refusals;

namespace MixEngine.Service.Mapping;

/// <summary>Lamps, as asked and as answered.</summary>
internal static class LampMapping
{
    public static (IReadOnlyList<Illuminant> Lamps, MatchTarget? Target) Read(V1.LightRequest request, Core.View view, Violations violations)
    {
        if (request.Lamps.Count > RampLookMapping.MostLooks)
        {
            violations.Add("lamps", $"{request.Lamps.Count} lamps are given; at most {RampLookMapping.MostLooks} are looked under.");
        }

        var color = request.Target is null ? null : ColorInputMapping.Read(request.Target, "target", view.Condition, violations);
        Illuminant[] lamps = [.. request.Lamps.Take(RampLookMapping.MostLooks).Select((lamp, i) => Read(lamp, $"lamps[{i}]", violations)).OfType<Illuminant>()];
        return (request.Lamps.Count == 0 ? Lamps.Usual : lamps, color is null || violations.Any ? null : MatchMapping.TargetOf(color));
    }

    public static V1.LightResponse Write(IReadOnlyList<Recipe> recipes, IReadOnlyList<Illuminant> lamps, MatchTarget? target, Core.View view)
    {
        var looks = lamps.Select(lamp => RampLook.UnderLamp(recipes, view, lamp)).ToArray();
        var message = new V1.LightResponse
        {
            Looks = { looks.Select(RampLookMapping.Write) },
            WorstLamp = looks.MaxBy(look => look.Steps.Max(step => step.ShiftDeltaE00))!.Name,
        };
        if (target is null)
        {
            return message;
        }

        for (var i = 0; i < recipes.Count; i++)
        {
            var matched = Prediction.AppearanceOf(recipes[i], view).Reflectance;
            message.Matches.Add(LampMatch.Of(target, matched, view.Condition, lamps).Select(match => new V1.LampMatch
            {
                Lamp = match.Lamp.Illuminant.Name,
                RecipeNumber = i + 1,
                DeltaE00 = match.DeltaE00,
                MetamerismIndex = match.MetamerismIndex,
            }));
        }

        message.WorstLamp = message.Matches.MaxBy(match => match.DeltaE00)!.Lamp;
        if (!target.IsMeasured)
        {
            message.Remarks.Add("The target is a colour without a spectrum: under other lamps the smoothest surface of that colour stands in for it.");
        }

        return message;
    }

    /// <summary>A known light by its name, or a spectrum under any name; null, with a violation noted, where it is neither.</summary>
    public static Illuminant? Read(V1.Lamp lamp, string field, Violations violations)
    {
        if (lamp.WavelengthNm.Count == 0 && lamp.RelativePower.Count == 0)
        {
            if (Illuminant.TryFromName(lamp.Name, out var known))
            {
                return known;
            }

            violations.Add($"{field}.name", $"'{Shown.Of(lamp.Name)}' is no light that is known; use {string.Join(", ", Illuminant.All.Select(light => light.Name))}, or give its spectrum.");
            return null;
        }

        if (lamp.WavelengthNm.Count > ColorInputMapping.MostBands)
        {
            violations.Add($"{field}.wavelength_nm", $"{lamp.WavelengthNm.Count} wavelengths are given; at most {ColorInputMapping.MostBands} are read.");
            return null;
        }

        try
        {
            return Illuminant.FromSpectrum(Shown.Of(lamp.Name.Trim().Length == 0 ? "measured lamp" : lamp.Name.Trim()), [.. lamp.WavelengthNm], [.. lamp.RelativePower]);
        }
        catch (ArgumentException fault)
        {
            violations.Add($"{field}.relative_power", fault.Message.Split(" (Parameter")[0]);
            return null;
        }
    }
}

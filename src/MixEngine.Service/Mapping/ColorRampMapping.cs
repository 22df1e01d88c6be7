using MixEngine.Core;
using MixEngine.Service.Refusals;

namespace MixEngine.Service.Mapping;

/// <summary>Ramps around one colour, as asked and as answered.</summary>
internal static class ColorRampMapping
{
    public static (MatchTarget? Target, ColorRampOptions Options) Read(V1.RampAroundRequest request, Core.View view, Violations violations)
    {
        var color = ColorInputMapping.Read(request.Target, "target", view.Condition, violations);
        var usual = new ColorRampOptions();
        var steps = violations.InRange("steps", request.Steps, 2, RampOptions.MostSteps, ifZero: usual.Ramp.Steps);
        var drops = violations.InRange("drops", request.Drops, 1, RampOptions.MostDrops, ifZero: RampInUse.UsualDrops);
        var paints = violations.InRange("paints", request.Paints, 1, MatchOptions.MostPaints, ifZero: usual.Paints);
        var difference = RampMapping.ReadDifference(request.Difference, violations);
        var share = request.HasChromaShare ? violations.InRange("chroma_share", request.ChromaShare, 0, 1) : usual.ChromaShare;
        var lightest = request.HasLightestL ? violations.InRange("lightest_l", request.LightestL, 0, 100) : (double?)null;
        var darkest = request.HasDarkestL ? violations.InRange("darkest_l", request.DarkestL, 0, 100) : (double?)null;
        if (request.HuePath.Length > 0 && Words.HuePath.Read(request.HuePath) is null)
        {
            violations.Add("hue_path", $"'{Shown.Of(request.HuePath)}' is no way for a hue; use {Words.HuePath.All}.");
        }

        if (color is null || violations.Any)
        {
            return (null, usual);
        }

        // Shadows lie below the mid-tone, lights above it.
        var target = MatchMapping.TargetOf(color);
        var middle = target.Under(view.Condition).L;
        if (lightest <= middle)
        {
            violations.Add("lightest_l", FormattableString.Invariant($"{lightest} is not lighter than the mid-tone, which has L {middle:0.0}."));
        }

        if (darkest >= middle)
        {
            violations.Add("darkest_l", FormattableString.Invariant($"{darkest} is not darker than the mid-tone, which has L {middle:0.0}."));
        }

        return (target, violations.Any ? usual : new ColorRampOptions
        {
            Ramp = new RampOptions { Steps = steps, Drops = drops, Difference = difference },
            Path = Words.HuePath.Read(request.HuePath) ?? HuePath.Straight,
            ChromaShare = share,
            Paints = paints,
            Lightest = lightest,
            Darkest = darkest,
        });
    }

    public static V1.RampAroundResponse Write(ColorRamp ramp, MatchTarget target, Core.View view, V1.View? asked) => new()
    {
        Target = ColorMapping.Write(target.Under(view.Condition), view.Condition),
        Middle = MatchMapping.Write(ramp.Middle, target, asked),
        MiddleStep = ramp.Place,
        Ramp = RampMapping.Write(ramp.Ramp, asked),
        Shadow = Write(ramp.Shadow),
        Light = Write(ramp.Light),
        Remarks = { ramp.Remarks },
    };

    private static V1.RampWing? Write(RampWing? wing) =>
        wing is null ? null : new V1.RampWing { Added = RecipeMapping.Write(wing.Added), ChromaKept = wing.ChromaKept };
}

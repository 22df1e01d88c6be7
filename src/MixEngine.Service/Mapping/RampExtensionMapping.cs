using MixEngine.Core;
using MixEngine.Service.Refusals;
using MixEngine.Service.Shelves;

namespace MixEngine.Service.Mapping;

/// <summary>One more step, at an end of a ramp or between two of it, as asked and as answered.</summary>
internal static class RampExtensionMapping
{
    /// <summary>Most paints to go on with.</summary>
    public const int MostPaints = 64;

    public static (RampEnd End, IReadOnlyList<Paint> With) Read(V1.ExtendRampRequest request, Shelf shelf, Violations violations)
    {
        if (request.End.Length > 0 && Words.RampEnd.Read(request.End) is null)
        {
            violations.Add("end", $"'{Shown.Of(request.End)}' is no end of a ramp; use {Words.RampEnd.All}.");
        }

        if (request.With.Count > MostPaints)
        {
            violations.Add("with", $"{request.With.Count} paints are named; at most {MostPaints} are looked at.");
        }

        Paint[] with = [.. request.With.Take(MostPaints).Select((name, i) => PaintLookup.Find(shelf, name, $"with[{i}]", violations)).OfType<Paint>()];
        return (Words.RampEnd.Read(request.End) ?? RampEnd.Light, request.With.Count == 0 ? [.. shelf.Paints] : with);
    }

    public static V1.ExtendRampResponse Write(IReadOnlyList<RampExtension> extensions, RampEnd end, V1.View? view)
    {
        var message = new V1.ExtendRampResponse
        {
            Extensions =
            {
                extensions.Select(extension => new V1.RampExtension
                {
                    Step = RampMapping.Write(extension.Prediction, extension.StepDeltaE00, view),
                    WithPaintId = extension.With.Id,
                    WithPaint = extension.With.Name,
                    Words = extension.Shift.Words,
                }),
            },
        };
        if (extensions.Count == 0)
        {
            message.Remarks.Add($"None of the paints leads further into the {Words.RampEnd.For(end)}.");
        }

        return message;
    }

    public static V1.StepBetweenResponse Write(InBetween? between, Recipe from, Recipe to, Core.View view, RampOptions options, V1.View? asked)
    {
        var (one, other) = (Prediction.AppearanceOf(from, view), Prediction.AppearanceOf(to, view));
        var (darker, lighter) = one.Lab.L <= other.Lab.L ? (one, other) : (other, one);
        var message = new V1.StepBetweenResponse { Darker = ColorMapping.Write(darker), Lighter = ColorMapping.Write(lighter) };
        if (between is null)
        {
            message.Reason = $"No mixture of the two in at most {options.Drops} drops lies between them in lightness.";
            return message;
        }

        message.Between = RampMapping.Write(between.Prediction, between.FromDarkerDeltaE00, asked);
        message.FromDarkerDeltaE00 = between.FromDarkerDeltaE00;
        message.ToLighterDeltaE00 = between.ToLighterDeltaE00;
        return message;
    }
}

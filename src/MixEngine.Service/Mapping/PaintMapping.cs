using MixEngine.Core;

namespace MixEngine.Service.Mapping;

/// <summary>Paints as answered.</summary>
internal static class PaintMapping
{
    /// <summary>A paint on a shelf, seen.</summary>
    public static V1.Paint Write(Paint paint, View view)
    {
        var message = new V1.Paint
        {
            Id = paint.Id,
            Name = paint.Name,
            Range = paint.Range ?? "",
            Kind = Words.Kind.For(paint.Kind),
            Opacity = paint.Opacity is { } opacity ? Words.Opacity.For(opacity) : "",
            Finish = paint.Finish is { } finish ? Words.Finish.For(finish) : "",
            Grade = Words.Grade.For(paint.Grade),
            Notes = paint.Notes ?? "",
            Pigments = { paint.Pigments },
            Remarks = { paint.Remarks },
        };
        if (paint.DropsPerMl is { } drops)
        {
            message.DropsPerMl = drops;
        }

        if (paint.MlLeft is { } left)
        {
            message.MlLeft = left;
        }

        if (paint.Kind == PaintKind.Paint)
        {
            var alone = Prediction.Of(Recipe.Of(paint), view);
            message.Color = ColorMapping.Write(alone.Appearance);
            message.ExpectedError = ColorMapping.Write(alone.ExpectedError);
        }

        return message;
    }

    /// <summary>A paint with its curves.</summary>
    public static V1.GetPaintResponse WriteWithCurves(Paint paint, View view)
    {
        var message = new V1.GetPaintResponse { Paint = Write(paint, view), WavelengthNm = { ColorMapping.Wavelengths } };
        message.AbsorptionPerUm.Add(paint.Optics.K.ToArray());
        message.ScatteringPerUm.Add(paint.Optics.S.ToArray());
        if (paint.Kind == PaintKind.Paint)
        {
            message.Reflectance.Add(Prediction.AppearanceOf(Recipe.Of(paint), view).Reflectance.Values.ToArray());
        }

        return message;
    }
}

using MixEngine.Core;

namespace MixEngine.Service.Mapping;

/// <summary>Predictions as answered.</summary>
internal static class PredictionMapping
{
    public static V1.PredictResponse Write(Prediction prediction, V1.View? view) => new()
    {
        Recipe = RecipeMapping.Write(prediction.Recipe),
        Color = ColorMapping.Write(prediction.Appearance),
        ExpectedError = ColorMapping.Write(prediction.ExpectedError),
        Reflectance = ColorMapping.WriteReflectance(prediction.Appearance.Reflectance, view),
    };
}

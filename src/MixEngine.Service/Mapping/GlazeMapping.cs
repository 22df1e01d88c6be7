using MixEngine.Core;

namespace MixEngine.Service.Mapping;

/// <summary>Glazes as answered.</summary>
internal static class GlazeMapping
{
    public static V1.GlazeResponse Write(Glaze glaze, V1.View? view) => new()
    {
        Over = ColorMapping.Write(glaze.Beneath),
        Recipe = RecipeMapping.Write(glaze.Recipe),
        Coats = { glaze.Coats.Select(coat => Write(coat, view)) },
        Remarks = { glaze.Remarks },
    };

    private static V1.CoatResult Write(GlazeCoat coat, V1.View? view) => new()
    {
        Coat = coat.Coat,
        Color = ColorMapping.Write(coat.Appearance),
        ExpectedError = ColorMapping.Write(coat.ExpectedError),
        StepDeltaE00 = coat.StepDeltaE00,
        TotalDeltaE00 = coat.TotalDeltaE00,
        Reflectance = ColorMapping.WriteReflectance(coat.Appearance.Reflectance, view),
    };
}

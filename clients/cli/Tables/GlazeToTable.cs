using MixEngine.V1;

namespace MixEngine.Cli.Tables;

internal static class GlazeToTable
{
    /// <summary>A row for each layer under each glaze.</summary>
    public static CsvTable Of(GlazeToResponse answer)
    {
        var table = new CsvTable(["glaze", "coats", "recipe", "delta_e00", "layer", "layer_delta_e00", "step_delta_e00", .. Cells.ColorHeader, .. Cells.ErrorHeader]);
        for (int i = 0; i < answer.Glazes.Count; i++)
        {
            GlazeMatch glaze = answer.Glazes[i];
            for (int j = 0; j < glaze.Layers.Count; j++)
            {
                GlazedLayer layer = glaze.Layers[j];
                table.Add(
                [
                    Cells.Of(i + 1), Cells.Of(glaze.Coats), Cells.Of(glaze.Recipe), Cells.Of(glaze.DeltaE00),
                    Cells.Of(j + 1), Cells.Of(layer.DeltaE00), layer.HasStepDeltaE00 ? Cells.Of(layer.StepDeltaE00) : "",
                    .. Cells.Of(layer.After), .. Cells.Of(layer.ExpectedError),
                ]);
            }
        }
        return table;
    }
}

using MixEngine.V1;

namespace MixEngine.Cli.Tables;

internal static class GlazeTable
{
    /// <summary>Coat 0 is what lies beneath.</summary>
    public static CsvTable Of(GlazeResponse answer)
    {
        Spectrum? first = answer.Coats.FirstOrDefault()?.Reflectance;
        string[] reflectance = Cells.ReflectanceHeader(first);
        var table = new CsvTable(["coat", "recipe", "step_delta_e00", "total_delta_e00", .. Cells.ColorHeader, .. Cells.ErrorHeader, .. reflectance]);
        table.Add(["0", "", "", "", .. Cells.Of(answer.Over), .. Cells.Of((ExpectedError?)null), .. reflectance.Select(_ => "")]);
        foreach (CoatResult coat in answer.Coats)
        {
            table.Add(
            [
                Cells.Of(coat.Coat),
                Cells.Of(answer.Recipe),
                coat.HasStepDeltaE00 ? Cells.Of(coat.StepDeltaE00) : "",
                coat.HasTotalDeltaE00 ? Cells.Of(coat.TotalDeltaE00) : "",
                .. Cells.Of(coat.Color),
                .. Cells.Of(coat.ExpectedError),
                .. Cells.Of(coat.Reflectance),
            ]);
        }
        return table;
    }
}

using MixEngine.V1;

namespace MixEngine.Cli.Tables;

internal static class RampTable
{
    public static CsvTable Of(RampResponse answer)
    {
        Spectrum? first = answer.Steps.FirstOrDefault()?.Reflectance;
        var table = new CsvTable(["step", "recipe", "step_delta_e00", .. Cells.ColorHeader, .. Cells.ErrorHeader, .. Cells.ReflectanceHeader(first)]);
        for (int i = 0; i < answer.Steps.Count; i++)
        {
            RampStep step = answer.Steps[i];
            table.Add(
            [
                Cells.Of(i + 1),
                Cells.Of(step.Recipe),
                step.HasStepDeltaE00 ? Cells.Of(step.StepDeltaE00) : "",
                .. Cells.Of(step.Color),
                .. Cells.Of(step.ExpectedError),
                .. Cells.Of(step.Reflectance),
            ]);
        }
        return table;
    }
}

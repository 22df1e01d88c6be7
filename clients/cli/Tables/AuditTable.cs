using MixEngine.V1;

namespace MixEngine.Cli.Tables;

internal static class AuditTable
{
    /// <summary>A row a step: the fault that concerns it, and what it should be mixed as.</summary>
    public static CsvTable Of(AuditRampResponse answer)
    {
        var table = new CsvTable(["step", "recipe", "step_delta_e00", "fault", "mended_recipe", .. Cells.ColorHeader, .. Cells.ErrorHeader]);
        foreach (AuditedStep audited in answer.Steps)
        {
            RampStep step = audited.Step;
            RampFault? fault = answer.Faults.FirstOrDefault(fault => fault.HasStep ? fault.Step == audited.Number : fault.ToStep == audited.Number);
            RampChange? change = answer.Mending?.Changes.FirstOrDefault(change => change.Step == audited.Number);
            table.Add(
            [
                Cells.Of(audited.Number),
                Cells.Of(step.Recipe),
                step.HasStepDeltaE00 ? Cells.Of(step.StepDeltaE00) : "",
                fault?.Kind ?? "",
                Cells.Of(change?.To),
                .. Cells.Of(step.Color),
                .. Cells.Of(step.ExpectedError),
            ]);
        }
        return table;
    }
}

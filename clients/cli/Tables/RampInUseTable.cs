using MixEngine.V1;

namespace MixEngine.Cli.Tables;

internal static class RampInUseTable
{
    private static readonly string[] Header = ["recipe", "step_delta_e00", "with", "change", .. Cells.ColorHeader, .. Cells.ErrorHeader];

    public static CsvTable Of(ExtendRampResponse answer)
    {
        var table = new CsvTable(Header);
        foreach (RampExtension extension in answer.Extensions)
        {
            table.Add([Cells.Of(extension.Step.Recipe), Cells.Of(extension.Step.StepDeltaE00), extension.WithPaint, extension.Words, .. Cells.Of(extension.Step.Color), .. Cells.Of(extension.Step.ExpectedError)]);
        }
        return table;
    }

    public static CsvTable Of(StepBetweenResponse answer)
    {
        var table = new CsvTable(Header);
        if (answer.Between is { } step)
        {
            table.Add([Cells.Of(step.Recipe), Cells.Of(step.StepDeltaE00), "", "", .. Cells.Of(step.Color), .. Cells.Of(step.ExpectedError)]);
        }
        return table;
    }
}

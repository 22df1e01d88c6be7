using MixEngine.V1;

namespace MixEngine.Cli.Tables;

internal static class PredictTable
{
    public static CsvTable Of(PredictResponse answer)
    {
        var table = new CsvTable(["recipe", .. Cells.ColorHeader, .. Cells.ErrorHeader, .. Cells.ReflectanceHeader(answer.Reflectance)]);
        table.Add([Cells.Of(answer.Recipe), .. Cells.Of(answer.Color), .. Cells.Of(answer.ExpectedError), .. Cells.Of(answer.Reflectance)]);
        return table;
    }
}

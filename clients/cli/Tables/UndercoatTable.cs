using MixEngine.V1;

namespace MixEngine.Cli.Tables;

internal static class UndercoatTable
{
    public static CsvTable Of(UndercoatResponse answer)
    {
        var table = new CsvTable("primer", "coats", "undercoat", "undercoat_coats", "coats_above");
        foreach (PrimerPlan plan in answer.Primers)
        {
            table.Add(
                plan.Primer,
                plan.HasCoats ? Cells.Of(plan.Coats) : "",
                plan.Undercoat?.Paint ?? "",
                plan.Undercoat is { } beneath ? Cells.Of(beneath.Coats) : "",
                plan.Undercoat is { } above ? Cells.Of(above.CoatsAbove) : "");
        }
        return table;
    }
}

using MixEngine.V1;

namespace MixEngine.Cli.Tables;

internal static class CoverTable
{
    /// <summary>One row a coat; the coats to hide the primer stand in each of its rows, empty where it is not hidden within 100.</summary>
    public static CsvTable Of(CoverResponse answer)
    {
        var table = new CsvTable(
        [
            "recipe", "primer", "coats_to_hide", "coats_at_best", "coats_at_worst",
            "coat", "contrast_ratio", "remaining_delta_e00", .. Cells.ColorHeader, .. Cells.ErrorHeader,
        ]);
        foreach (CoverResult primer in answer.Primers)
        {
            string[] verdict =
            [
                Cells.Of(answer.Recipe),
                primer.Primer,
                primer.HasCoats ? Cells.Of(primer.Coats) : "",
                primer.HasCoatsAtBest ? Cells.Of(primer.CoatsAtBest) : "",
                primer.HasCoatsAtWorst ? Cells.Of(primer.CoatsAtWorst) : "",
            ];
            foreach (CoverCoat coat in primer.Steps)
            {
                table.Add(
                [
                    .. verdict,
                    Cells.Of(coat.Coat),
                    coat.HasContrastRatio ? Cells.Of(coat.ContrastRatio) : "",
                    coat.HasRemainingDeltaE00 ? Cells.Of(coat.RemainingDeltaE00) : "",
                    .. Cells.Of(coat.Color),
                    .. Cells.Of(coat.ExpectedError),
                ]);
            }
            if (primer.Steps.Count == 0)
            {
                table.Add([.. verdict, "", "", "", .. Cells.Of((Color?)null), .. Cells.Of((ExpectedError?)null)]);
            }
        }
        return table;
    }
}

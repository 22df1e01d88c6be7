using MixEngine.V1;

namespace MixEngine.Cli.Tables;

internal static class SwatchTable
{
    private static readonly string[] FitHeader =
    [
        "id", "recipe", "over", "film", "thickness_um", "coats", "dosing", "source", "specular", "finish", "date", "note",
        .. Cells.ColorHeader, "fitted_l", "fitted_a", "fitted_b", "delta_e00", "surprise", "suspect", "remark",
    ];

    public static CsvTable Of(AddSwatchResponse answer) => Of([answer.Fit]);

    public static CsvTable Of(CorrectSwatchResponse answer) => Of([answer.Fit]);

    public static CsvTable Of(RemoveSwatchResponse answer) => Of([new SwatchFit { Swatch = answer.Removed }]);

    public static CsvTable Of(ListSwatchesResponse answer) => Of(answer.Swatches);

    /// <summary>One row a paint of which more is known now.</summary>
    public static CsvTable Of(ImportSwatchesResponse answer)
    {
        var table = new CsvTable("added", "already_there", "paint", "grade_before", "grade_after", "bound_before_delta_e00", "bound_after_delta_e00", "suspects");
        string suspects = string.Join("; ", answer.Suspects.Select(fit => fit.Swatch.Id));
        foreach (PaintChange paint in answer.Paints.DefaultIfEmpty(new PaintChange()))
        {
            table.Add(
                Cells.Of(answer.Added), Cells.Of(answer.AlreadyThere), paint.Paint, paint.GradeBefore, paint.GradeAfter,
                Cells.Of(paint.ErrorBefore)[1], Cells.Of(paint.ErrorAfter)[1], suspects);
        }
        return table;
    }

    public static CsvTable Of(AdviseSwatchResponse answer)
    {
        var table = new CsvTable("rank", "recipe", "bound_now_delta_e00", "bound_after_delta_e00", "words");
        for (int i = 0; i < answer.Advice.Count; i++)
        {
            SwatchAdvice advice = answer.Advice[i];
            table.Add(Cells.Of(i + 1), Cells.Of(advice.Recipe), Cells.Of(advice.BoundNowDeltaE00), Cells.Of(advice.BoundAfterDeltaE00), advice.Words);
        }
        return table;
    }

    private static CsvTable Of(IEnumerable<SwatchFit> fits)
    {
        var table = new CsvTable(FitHeader);
        foreach (SwatchFit fit in fits)
        {
            Swatch swatch = fit.Swatch;
            table.Add(
            [
                swatch.Id,
                swatch.Recipe.Text,
                swatch.Backing?.Text ?? "",
                swatch.Film,
                swatch.HasThicknessUm ? Cells.Of(swatch.ThicknessUm) : "",
                swatch.HasCoats ? Cells.Of(swatch.Coats) : "",
                swatch.Dosing,
                swatch.Source,
                swatch.Specular,
                swatch.Finish,
                swatch.Date,
                swatch.Note,
                .. Cells.Of(fit.Measured),
                .. Cells.Of(fit.Fitted)[2..5],
                fit.HasDeltaE00 ? Cells.Of(fit.DeltaE00) : "",
                fit.HasSurprise ? Cells.Of(fit.Surprise) : "",
                fit.HasSuspect ? Cells.Of(fit.Suspect) : "",
                fit.Remark,
            ]);
        }
        return table;
    }
}

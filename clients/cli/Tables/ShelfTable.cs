using MixEngine.V1;

namespace MixEngine.Cli.Tables;

internal static class ShelfTable
{
    private static readonly string[] PaintHeader =
        ["id", "name", "range", "kind", "opacity", "finish", "grade", .. Cells.ColorHeader, .. Cells.ErrorHeader, "drops_per_ml", "ml_left", "pigments", "notes"];

    public static CsvTable Of(ListShelvesResponse answer)
    {
        var table = new CsvTable("shelf", "paints");
        foreach (ShelfSummary shelf in answer.Shelves)
        {
            table.Add(shelf.Shelf, Cells.Of(shelf.Paints));
        }
        return table;
    }

    public static CsvTable Of(ListPaintsResponse answer)
    {
        var table = new CsvTable(PaintHeader);
        foreach (Paint paint in answer.Paints)
        {
            table.Add(Row(paint));
        }
        return table;
    }

    /// <summary>The curves, one row a band.</summary>
    public static CsvTable Of(GetPaintResponse answer)
    {
        var table = new CsvTable("wavelength_nm", "absorption_per_um", "scattering_per_um", "reflectance");
        string Cell(IReadOnlyList<double> curve, int band) => band < curve.Count ? curve[band].ToString("G9", Numerals.Invariant) : "";
        for (int band = 0; band < answer.WavelengthNm.Count; band++)
        {
            table.Add(
                Numerals.UpTo(3, answer.WavelengthNm[band]),
                Cell(answer.AbsorptionPerUm, band),
                Cell(answer.ScatteringPerUm, band),
                Cell(answer.Reflectance, band));
        }
        return table;
    }

    public static CsvTable Of(RemovePaintResponse answer)
    {
        var table = new CsvTable(PaintHeader);
        table.Add(Row(answer.Removed));
        return table;
    }

    public static CsvTable Of(ImportShelfResponse answer)
    {
        var table = new CsvTable("paint", "outcome");
        void Add(IEnumerable<string> paints, string outcome)
        {
            foreach (string paint in paints)
            {
                table.Add(paint, outcome);
            }
        }
        Add(answer.Added, "added");
        Add(answer.Changed, "changed");
        Add(answer.Unchanged, "unchanged");
        return table;
    }

    private static string[] Row(Paint paint) =>
    [
        paint.Id, paint.Name, paint.Range, paint.Kind, paint.Opacity, paint.Finish, paint.Grade,
        .. Cells.Of(paint.Color),
        .. Cells.Of(paint.ExpectedError),
        paint.HasDropsPerMl ? Cells.Of(paint.DropsPerMl) : "",
        paint.HasMlLeft ? Cells.Of(paint.MlLeft) : "",
        string.Join(' ', paint.Pigments),
        paint.Notes,
    ];
}

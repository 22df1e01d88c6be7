namespace MixEngine.Interchange;

/// <summary>The forms in which a table is read and written.</summary>
public enum TableFormat
{
    /// <summary>Delimited text [RFC4180], one line for each paint or swatch; spectra with one column for each wavelength.</summary>
    Csv,

    /// <summary>Delimited text with one line for each sample and wavelength. Swatches only.</summary>
    CsvLong,

    /// <summary>Office Open XML workbook [ISO29500], its first worksheet, laid out like <see cref="Csv"/>.</summary>
    Xlsx,

    /// <summary>Keyword-value text after CGATS.17 and ISO 28178 [CGATS17]. Written for swatches only.</summary>
    Cgats,

    /// <summary>Color Exchange Format 3, XML [ISO17972-1]. Written for swatches only.</summary>
    Cxf,
}

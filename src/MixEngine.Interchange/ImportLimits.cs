namespace MixEngine.Interchange;

/// <summary>How much one import may hold. A refusal names the size found and the limit.</summary>
public static class ImportLimits
{
    private const int Mebi = 1024 * 1024;

    /// <summary>Most bytes of a shelf table.</summary>
    public const int ShelfBytes = 16 * Mebi;

    /// <summary>Most bytes of a swatch table: 5,000 spectra of 401 values in full precision are about 40 MiB of text, 90 with one line for each value.</summary>
    public const int SwatchBytes = 128 * Mebi;

    /// <summary>Most bytes of a workbook once unpacked.</summary>
    public const int UnpackedBytes = 512 * Mebi;

    /// <summary>Most paints or swatches in one table.</summary>
    public const int Rows = 100_000;

    /// <summary>Most lines of a table with one line for each sample and band.</summary>
    public const int LongRows = 4_000_000;

    /// <summary>Most columns in one table.</summary>
    public const int Columns = 2_000;

    /// <summary>Most characters in one cell.</summary>
    public const int CellCharacters = 4_000;

    /// <summary>Most characters in a name or a sample's id.</summary>
    public const int NameCharacters = 200;

    /// <summary>Most characters in what a swatch is of.</summary>
    public const int RecipeCharacters = 1_000;

    /// <summary>Most faults listed; of the others only the number is told.</summary>
    public const int Faults = 50;
}

using CsCheck;

namespace MixEngine.Interchange.Tests;

public class SwatchRoundTripTests
{
    [Theory]
    [InlineData(TableFormat.Csv)]
    [InlineData(TableFormat.CsvLong)]
    [InlineData(TableFormat.Xlsx)]
    [InlineData(TableFormat.Cgats)]
    [InlineData(TableFormat.Cxf)]
    public void What_is_written_is_read_back_identically(TableFormat format)
    {
        Some.SwatchTable.Sample(table => Assert.Equal(table.Rows, Given.Read(Given.Swatches(Given.Written(table, format))).Rows), iter: 200);
    }
}

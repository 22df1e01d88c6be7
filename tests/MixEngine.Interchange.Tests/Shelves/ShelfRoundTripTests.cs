using System.Text;
using CsCheck;

namespace MixEngine.Interchange.Tests;

public class ShelfRoundTripTests
{
    [Theory]
    [InlineData(TableFormat.Csv)]
    [InlineData(TableFormat.Xlsx)]
    public void What_is_written_is_read_back_identically(TableFormat format)
    {
        Some.ShelfTable.Sample(shelf => Assert.Equal(shelf.Rows, Given.Read(Given.Shelf(Given.Written(shelf, format))).Rows), iter: 200);
    }

    [Fact]
    public void An_empty_shelf_survives()
    {
        Assert.Empty(Given.Read(Given.Shelf(Given.Written(new ShelfTable([]), TableFormat.Csv))).Rows);
    }

    [Fact]
    public void A_name_that_a_spreadsheet_would_take_for_a_formula_is_written_as_text()
    {
        var shelf = new ShelfTable([new ShelfRow(2, "=1+1") { Color = Given.Hex("#4e5a2c") }]);
        byte[] written = Given.Written(shelf, TableFormat.Csv);

        Assert.Contains("\n'=1+1,", Encoding.UTF8.GetString(written));
        Assert.Equal(shelf, Given.Read(Given.Shelf(written)));
    }

    [Theory]
    [InlineData(" kelp")]
    [InlineData("ke\u001blp")]
    [InlineData("ke\nlp")]
    public void What_could_not_be_read_back_is_not_written(string name)
    {
        var shelf = new ShelfTable([new ShelfRow(2, name) { Color = Given.Hex("#4e5a2c") }]);

        Assert.Throws<ArgumentException>(() => Given.Written(shelf, TableFormat.Csv));
    }
}

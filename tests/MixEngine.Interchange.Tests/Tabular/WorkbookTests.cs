using System.IO.Compression;
using SpreadCheetah;

namespace MixEngine.Interchange.Tests;

public class WorkbookTests
{
    private static byte[] Book(params (string Sheet, DataCell[][] Rows)[] sheets)
    {
        using var stream = new MemoryStream();
        Write(sheets, stream).GetAwaiter().GetResult();
        return stream.ToArray();
    }

    private static async Task Write((string Sheet, DataCell[][] Rows)[] sheets, Stream stream)
    {
        await using Spreadsheet book = await Spreadsheet.CreateNewAsync(stream);
        foreach ((string sheet, DataCell[][] rows) in sheets)
        {
            await book.StartWorksheetAsync(sheet);
            foreach (DataCell[] row in rows)
            {
                await book.AddRowAsync(row);
            }
        }
        await book.FinishAsync();
    }

    private static byte[] Paint(DataCell name, DataCell hex) => Book(("paints", [[new("name"), new("hex")], [name, hex]]));

    [Fact]
    public void A_hex_that_the_spreadsheet_made_a_number_of_is_refused_unless_nothing_was_lost()
    {
        Assert.Equal(Given.Hex("#123456"), Given.Read(Given.Shelf(Paint(new("kelp"), new(123456)))).Rows[0].Color);
        Assert.Equal(Given.Hex("#000000"), Given.Read(Given.Shelf(Paint(new("kelp"), new("000000")))).Rows[0].Color);

        foreach (double lost in (double[])[0, 123, 12345, 4e12])
        {
            ImportFault fault = Given.OnlyFault(Given.Shelf(Paint(new("kelp"), new(lost))));
            Assert.Equal((2, "hex"), (fault.Line, fault.Field));
            Assert.Contains("format the column as text", fault.Remedy);
        }
    }

    [Fact]
    public void A_name_that_the_spreadsheet_made_a_date_of_is_refused()
    {
        ImportFault fault = Given.OnlyFault(Given.Shelf(Paint(new(new DateTime(2024, 10, 1)), new("#ccc"))));

        Assert.Equal((2, "name", "2024-10-01"), (fault.Line, fault.Field, fault.Value));
        Assert.Contains("date", fault.Remedy);
    }

    [Fact]
    public void A_name_that_is_a_number_stays_as_written()
    {
        Assert.Equal("709", Given.Read(Given.Shelf(Paint(new(709), new("#ccc")))).Rows[0].Name);
    }

    [Fact]
    public void Numbers_as_text_and_as_numbers_are_one_and_dates_are_dates()
    {
        byte[] book = Book(("s", [[new("sample_id"), new("L"), new("a"), new("b"), new("date")], [new("1"), new(31.92), new("38,58"), new(10), new(new DateTime(2024, 5, 3))]]));
        SwatchRow row = Given.Read(Given.Swatches(book)).Rows.Single();

        Assert.Equal(new Colorimetry.Lab(31.92, 38.58, 10), Assert.IsType<LabReading>(row.Color).Lab);
        Assert.Equal(new DateOnly(2024, 5, 3), row.Date);
    }

    [Fact]
    public void The_first_worksheet_that_holds_something_is_read_and_the_others_named()
    {
        byte[] book = Book(("empty", []), ("mine", [[new("name"), new("hex")], [], [new("kelp"), new("#ccc")]]), ("notes", [[new("x")]]));
        ReadResult<ShelfTable> result = Given.Shelf(book, "shelf.xlsx");

        Assert.Equal(3, Given.Read(result).Rows.Single().Line);
        Assert.Contains(result.Notes, n => n == "Read the worksheet mine; left out notes.");
        Assert.Equal(TableFormat.Xlsx, result.Format);
    }

    [Fact]
    public void A_workbook_without_cells_is_empty()
    {
        Assert.Contains("empty", Given.OnlyFault(Given.Shelf(Book(("a", [])))).Remedy);
    }

    [Fact]
    public void Too_many_columns_are_refused()
    {
        byte[] book = Book(("a", [Enumerable.Range(0, ImportLimits.Columns + 1).Select(i => new DataCell(i)).ToArray()]));

        Assert.Contains("2001 columns", Given.OnlyFault(Given.Shelf(book)).Value);
    }

    [Fact]
    public void A_small_file_that_unpacks_without_end_is_refused_with_the_limit()
    {
        using var stream = new MemoryStream();
        using (var zip = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true))
        {
            zip.CreateEntry("[Content_Types].xml");
            using Stream part = zip.CreateEntry("xl/worksheets/sheet1.xml", CompressionLevel.Fastest).Open();
            var zeros = new byte[1024 * 1024];
            for (int i = 0; i <= ImportLimits.UnpackedBytes / zeros.Length; i++)
            {
                part.Write(zeros);
            }
        }
        Assert.InRange(stream.Length, 0, ImportLimits.ShelfBytes);

        Assert.Contains("536870912", Given.OnlyFault(Given.Shelf(stream.ToArray())).Expected);
    }

    [Fact]
    public void Other_archives_and_old_workbooks_are_named()
    {
        using var stream = new MemoryStream();
        using (var zip = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true))
        {
            zip.CreateEntry("mimetype");
        }
        Assert.Contains(".xlsx", Given.OnlyFault(Given.Shelf(stream.ToArray())).Remedy);
        Assert.Contains("old or protected", Given.OnlyFault(Given.Shelf([0xD0, 0xCF, 0x11, 0xE0, 0xA1, 0xB1, 0x1A, 0xE1])).Value);
    }

    [Theory]
    [InlineData("shelf.xlsx", "a workbook")]
    [InlineData("card.cxf", "XML")]
    public void A_file_that_is_not_what_its_name_says_is_refused(string fileName, string expected)
    {
        Assert.Equal(expected, Given.OnlyFault(Given.Shelf("name,hex\nkelp,#ccc\n", fileName)).Expected);
    }
}

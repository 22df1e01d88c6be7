using System.Globalization;

namespace MixEngine.Interchange.Tests;

public class CultureTests
{
    /// <summary>A country that writes 1.234,5 and 3.5.2024, made by hand so that it needs no data of the machine's.</summary>
    private static CultureInfo Country()
    {
        var country = (CultureInfo)CultureInfo.InvariantCulture.Clone();
        country.NumberFormat.NumberDecimalSeparator = ",";
        country.NumberFormat.NumberGroupSeparator = ".";
        country.NumberFormat.NegativeSign = "\u2212";
        country.DateTimeFormat.ShortDatePattern = "d.M.yyyy";
        country.DateTimeFormat.DateSeparator = ".";
        return country;
    }

    private static T Elsewhere<T>(Func<T> work)
    {
        CultureInfo here = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = Country();
            Assert.Equal("1,5", 1.5.ToString(CultureInfo.CurrentCulture));
            return work();
        }
        finally
        {
            CultureInfo.CurrentCulture = here;
        }
    }

    private static readonly SwatchTable Table = new(
    [
        new SwatchRow(0, "a", "kelp", new LabReading(new(41.25, -12.5, 1e-7), Colorimetry.ViewingCondition.Default)) { Date = new DateOnly(2024, 5, 3), ThicknessUm = 18.5 },
        new SwatchRow(0, "b", "tide pool", new SpectrumReading([.. Enumerable.Range(0, 36).Select(i => 380 + i * 10.0)], [.. Enumerable.Range(0, 36).Select(i => 0.1 + i / 100.0)])),
        new SwatchRow(0, "c", "film", Given.Hex("#ccc")) { Backing = SwatchBacking.OfColor(new LabReading(new(40.5, -1.5, 2.5), Colorimetry.ViewingCondition.Default)) },
    ]);

    [Theory]
    [InlineData(TableFormat.Csv)]
    [InlineData(TableFormat.CsvLong)]
    [InlineData(TableFormat.Xlsx)]
    [InlineData(TableFormat.Cgats)]
    [InlineData(TableFormat.Cxf)]
    public void Files_are_written_and_read_alike_in_every_country(TableFormat format)
    {
        byte[] here = Given.Written(Table, format);
        byte[] elsewhere = Elsewhere(() => Given.Written(Table, format));

        if (format != TableFormat.Xlsx)
        {
            Assert.Equal(here, elsewhere);
        }
        Assert.Equal(Table, Given.Read(Given.Swatches(elsewhere)));
        Assert.Equal(Table, Elsewhere(() => Given.Read(Given.Swatches(here))));
    }

    [Theory]
    [InlineData("name;L;a;b\nDark red;31,92;38,58;10\n")]
    [InlineData("name,L,a,b\nDark red,31.92,38.58,10\n")]
    [InlineData("name,L,a,b\nDark red,1.234.5,0,0\n")]
    [InlineData("name;hex;ml left\nkelp;#ccc;41,20\nrope;#12;1.234,5\n")]
    public void Results_do_not_depend_on_the_country_of_the_process(string text)
    {
        ReadResult<ShelfTable> here = Given.Shelf(text);
        ReadResult<ShelfTable> elsewhere = Elsewhere(() => Given.Shelf(text));

        Assert.Equal(here.Table, elsewhere.Table);
        Assert.Equal(here.Faults, elsewhere.Faults);
        Assert.Equal(here.Notes, elsewhere.Notes);
    }
}

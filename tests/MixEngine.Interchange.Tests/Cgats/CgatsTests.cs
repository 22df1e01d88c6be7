using MixEngine.Colorimetry;

namespace MixEngine.Interchange.Tests;

/// <summary>
/// The structure (keywords, KEYWORD declarations, BEGIN_DATA_FORMAT, BEGIN_DATA, SPECTRAL_NM with SPECTRAL_PCT or SPECTRAL_DEC, weighting functions) is that of
/// CGATS.17 / ISO 28178 as the keyword tables of the Little CMS reader (cmscgats.c, MIT licence) describe it; the values are invented.
/// </summary>
public class CgatsTests
{
    private const string Lab = """
        CGATS.17
        ORIGINATOR	"Harbour lab"	# a comment
        DESCRIPTOR	"Swatches, ""first"" card"
        CREATED	"2024-05-03"
        INSTRUMENTATION	"Invented 45"
        MEASUREMENT_GEOMETRY	"45/0"
        SAMPLE_BACKING	"black"
        WEIGHTING_FUNCTION	"ILLUMINANT, D65"
        WEIGHTING_FUNCTION	"OBSERVER, 10 degree"
        KEYWORD	"SAMPLE_NAME"
        NUMBER_OF_FIELDS	5
        BEGIN_DATA_FORMAT
        SAMPLE_ID	SAMPLE_NAME	LAB_L	LAB_A	LAB_B
        END_DATA_FORMAT
        NUMBER_OF_SETS	2
        BEGIN_DATA
        1	"tarred rope"	20.5	1.25	3
        2	kelp	41,20	-12.5	2.0e1
        END_DATA
        """;

    private static readonly string Bands = string.Join('\t', Enumerable.Range(0, 36).Select(i => $"nm{380 + i * 10}"));

    [Fact]
    public void A_plain_file_is_read_with_what_its_head_says()
    {
        ReadResult<SwatchTable> result = Given.Swatches(Lab);

        var view = new ViewingCondition(Illuminant.D65, Observer.Degree10);
        Assert.Equal(
        [
            new SwatchRow(17, "1", "tarred rope", new LabReading(new Lab(20.5, 1.25, 3), view)) { Specular = SpecularMode.Excluded, Backing = SwatchBacking.Black, Source = SwatchSource.Instrument },
            new SwatchRow(18, "2", "kelp", new LabReading(new Lab(41.2, -12.5, 20), view)) { Specular = SpecularMode.Excluded, Backing = SwatchBacking.Black, Source = SwatchSource.Instrument },
        ], Given.Read(result).Rows);
        Assert.Equal(TableFormat.Cgats, result.Format);
        Assert.Equal([17, 18], Given.Read(result).Rows.Select(r => r.Line));
    }

    [Fact]
    public void A_head_without_created_or_number_of_sets_loads_and_ids_are_no_channels()
    {
        string text = $"LGOROWLENGTH\t54\nKEYWORD\t\"SampleID\"\nBEGIN_DATA_FORMAT\nSampleID\tSAMPLE_NAME\t5CLR_1\t{Bands}\nEND_DATA_FORMAT\nBEGIN_DATA\n1\tdark red\t10.00\t{Spectra.Row(Spectra.Orange, separator: '\t')}\nEND_DATA\n";
        ReadResult<SwatchTable> result = Given.Swatches(text);

        SwatchRow row = Given.Read(result).Rows.Single();
        Assert.Equal(("1", "dark red"), (row.SampleId, row.Of));
        Assert.Equal(36, Assert.IsType<SpectrumReading>(row.Color).Factors.Count);
        Assert.Contains(result.Notes, n => n.Contains("Ignored the column 5CLR_1"));
    }

    [Theory]
    [InlineData("SPECTRAL_PCT", 100)]
    [InlineData("SPECTRAL_DEC", 1)]
    public void Spectra_as_pairs_of_wavelength_and_value_are_on_the_scale_of_the_field(string field, double scale)
    {
        int[] nm = [.. Enumerable.Range(0, 31).Select(i => 400 + i * 10)];
        string format = string.Join(' ', nm.Select(_ => $"SPECTRAL_NM {field}"));
        string Set(double value) => string.Join(' ', nm.Select(n => FormattableString.Invariant($"{n} {value * scale}")));
        SwatchTable table = Given.Read(Given.Swatches($"CGATS.17\nBEGIN_DATA_FORMAT\nSAMPLE_ID {format}\nEND_DATA_FORMAT\nBEGIN_DATA\na {Set(0.25)}\nb {Set(0.0125)}\nEND_DATA\n"));

        Assert.All(Assert.IsType<SpectrumReading>(table.Rows[1].Color).Factors, f => Assert.Equal(0.0125, f));
    }

    [Fact]
    public void Spectra_of_other_wavelengths_in_one_table_of_pairs_are_refused()
    {
        string format = string.Join(' ', Enumerable.Range(0, 31).Select(_ => "SPECTRAL_NM SPECTRAL_DEC"));
        string Set(int shift) => string.Join(' ', Enumerable.Range(0, 31).Select(i => $"{400 + shift + i * 10} 0.5"));

        Assert.Equal((7, "SPECTRAL_NM", "405"), Given.OnlyFault(Given.Swatches($"CGATS.17\nBEGIN_DATA_FORMAT\nSAMPLE_ID {format}\nEND_DATA_FORMAT\nBEGIN_DATA\na {Set(0)}\nb {Set(5)}\nEND_DATA\n")) is var f ? (f.Line, f.Field, f.Value) : default);
    }

    [Fact]
    public void Percent_declared_by_a_norm_is_percent()
    {
        string text = $"CGATS.17\nSPECTRAL_NORM \"100.000000\"\nBEGIN_DATA_FORMAT\nSAMPLE_ID {Bands}\nEND_DATA_FORMAT\nBEGIN_DATA\n1 {Spectra.Row(Spectra.BlackInPercent, separator: ' ')}\nEND_DATA\n";

        Assert.All(Assert.IsType<SpectrumReading>(Given.Read(Given.Swatches(text)).Rows[0].Color).Factors, f => Assert.InRange(f, 0.008, 0.0141));
    }

    [Fact]
    public void Colours_without_a_stated_light_are_those_of_the_printing_trade()
    {
        ReadResult<SwatchTable> result = Given.Swatches("CGATS.17\nBEGIN_DATA_FORMAT\nSAMPLE_ID XYZ_X XYZ_Y XYZ_Z\nEND_DATA_FORMAT\nBEGIN_DATA\n1 0.4 0.5 0.3\nEND_DATA\n");

        Assert.Equal(new XyzReading(new Xyz(0.4, 0.5, 0.3), new ViewingCondition(Illuminant.D50, Observer.Degree2)), Given.Read(result).Rows[0].Color);
        Assert.Contains(result.Notes, n => n.Contains("D50, 2 degrees assumed"));
    }

    [Theory]
    [InlineData("MEASUREMENT_SOURCE\t\"Illumination=D65 ObserverAngle=10 WhiteBase=Abs Filter=no\"")]
    [InlineData("ILLUMINATION_NAME\t\"D65\"\nOBSERVER_ANGLE\t\"10\"")]
    public void Light_and_observer_are_read_as_instruments_programs_write_them(string keywords)
    {
        ReadResult<SwatchTable> result = Given.Swatches($"CGATS.17\n{keywords}\nBEGIN_DATA_FORMAT\nSAMPLE_ID LAB_L LAB_A LAB_B\nEND_DATA_FORMAT\nBEGIN_DATA\n1 50 0 0\nEND_DATA\n");

        Assert.Equal(new ViewingCondition(Illuminant.D65, Observer.Degree10), Assert.IsType<LabReading>(Given.Read(result).Rows[0].Color).Condition);
        Assert.DoesNotContain(result.Notes, n => n.Contains("assumed"));
    }

    [Fact]
    public void Lab_under_a_light_we_do_not_know_is_refused()
    {
        Assert.Equal("C", Given.OnlyFault(Given.Swatches("CGATS.17\nILLUMINATION_NAME \"C\"\nBEGIN_DATA_FORMAT\nSAMPLE_ID LAB_L LAB_A LAB_B\nEND_DATA_FORMAT\nBEGIN_DATA\n1 50 0 0\nEND_DATA\n")).Value);
    }

    [Theory]
    [InlineData("ORIGINATOR\t\"Harbour lab\"\t# a comment", "\"ORIGINATOR \"\"Lab A\"\"\"", 2, "doubled")]
    [InlineData("ORIGINATOR\t\"Harbour lab\"\t# a comment", "ORIGINATOR,Harbour lab,,,", 2, "commas")]
    [InlineData("ORIGINATOR\t\"Harbour lab\"\t# a comment", "ORIGINATOR \"Harbour lab", 2, "not closed")]
    [InlineData("1\t\"tarred rope\"\t20.5\t1.25\t3", "\"1\t\"\"tarred rope\"\"\t20.5\t1.25\t3\"", 17, "doubled")]
    [InlineData("1\t\"tarred rope\"\t20.5\t1.25\t3", "1,tarred,20.5,1.25,3", 17, "values")]
    [InlineData("1\t\"tarred rope\"\t20.5\t1.25\t3", "1 tarred rope 20.5 1.25 3", 17, "quotation marks")]
    [InlineData("1\t\"tarred rope\"\t20.5\t1.25\t3", "1 \"tarred rope\" 20.5", 17, "missing")]
    public void A_damaged_line_is_named_with_the_likely_cause(string line, string damaged, int at, string cause)
    {
        ImportFault fault = Given.Swatches(Lab.Replace(line, damaged, StringComparison.Ordinal)).Faults[0];

        Assert.Equal(at, fault.Line);
        Assert.Contains(cause, fault.Remedy + fault.Expected);
    }

    [Theory]
    [InlineData("NUMBER_OF_SETS\t2", "NUMBER_OF_SETS\t3", "NUMBER_OF_SETS")]
    [InlineData("NUMBER_OF_FIELDS\t5", "NUMBER_OF_FIELDS\tfive", "NUMBER_OF_FIELDS")]
    [InlineData("END_DATA_FORMAT\n", "", "END_DATA_FORMAT")]
    [InlineData("41,20", "41.20.1", "LAB_L")]
    [InlineData("2.0e1", "\"\"", "LAB_B")]
    public void What_does_not_fit_is_refused(string text, string changed, string field)
    {
        Assert.Equal(field, Given.Swatches(Lab.ReplaceLineEndings("\n").Replace(text, changed, StringComparison.Ordinal)).Faults[0].Field);
    }

    [Fact]
    public void A_file_that_was_cut_off_is_refused()
    {
        Assert.Contains("cut off", Given.OnlyFault(Given.Swatches(Lab[..Lab.IndexOf("2\tkelp", StringComparison.Ordinal)])).Remedy);
    }

    [Fact]
    public void A_further_table_has_its_own_fields()
    {
        string more = Lab + "\nNUMBER_OF_FIELDS 2\nBEGIN_DATA_FORMAT\nSAMPLE_ID SRGB_HEX\nEND_DATA_FORMAT\nNUMBER_OF_SETS 1\nBEGIN_DATA\n3 \"#ccc\"\nEND_DATA\n";

        Assert.Equal([typeof(LabReading), typeof(LabReading), typeof(HexReading)], Given.Read(Given.Swatches(more)).Rows.Select(r => r.Color.GetType()));
    }

    [Fact]
    public void A_shelf_may_come_from_an_instruments_file()
    {
        ReadResult<ShelfTable> result = Given.Shelf(Lab, "shelf.txt");

        Assert.Equal(["tarred rope", "kelp"], Given.Read(result).Rows.Select(r => r.Name));
        Assert.Equal(TableFormat.Cgats, result.Format);
    }
}

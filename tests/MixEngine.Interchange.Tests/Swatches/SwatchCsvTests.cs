using System.Text;
using MixEngine.Colorimetry;

namespace MixEngine.Interchange.Tests;

public class SwatchCsvTests
{
    [Fact]
    public void Every_column_is_read()
    {
        SwatchRow row = Given.Read(Given.Swatches("""
            Sample;Recipe;Coats;Thickness um;Over;Sheen;Specular mode;Source;Date;Note;L;a;b;Light;Observer
            k1;2 tarred rope + 1 kelp;2;18,5;black;Satin;SCI;camera;2024-05-03;first try;40;-12,5;20;D50;10
            """)).Rows.Single();

        Assert.Equal(new SwatchRow(2, "k1", "2 tarred rope + 1 kelp", new LabReading(new Lab(40, -12.5, 20), new ViewingCondition(Illuminant.D50, Observer.Degree10)))
        {
            Coats = 2,
            ThicknessUm = 18.5,
            Backing = SwatchBacking.Black,
            Finish = StatedFinish.Satin,
            Specular = SpecularMode.Included,
            Source = SwatchSource.Photo,
            Date = new DateOnly(2024, 5, 3),
            Note = "first try",
        }, row);
    }

    [Fact]
    public void A_table_in_long_form_is_one_swatch_for_each_sample()
    {
        var text = new StringBuilder("sample,of,nm,value\n");
        for (int nm = 700; nm >= 400; nm -= 10)
        {
            text.Append(System.Globalization.CultureInfo.InvariantCulture, $"a,{(nm == 700 ? "kelp" : "")},{nm},{Spectra.Orange(nm)}\nb,tide pool,{nm},0.5\n");
        }
        SwatchTable table = Given.Read(Given.Swatches(text.ToString()));

        Assert.Equal([("a", "kelp", 2), ("b", "tide pool", 3)], table.Rows.Select(r => (r.SampleId, r.Of, r.Line)));
        SpectrumReading first = Assert.IsType<SpectrumReading>(table.Rows[0].Color);
        Assert.Equal((400, Spectra.Orange(400), 31), (first.WavelengthsNm[0], first.Factors[0], first.Factors.Count));
    }

    [Theory]
    [InlineData("a,,410,", 3, "value")]
    [InlineData("a,,410,NaN", 3, "value")]
    [InlineData("a,,,0.5", 3, "nm")]
    [InlineData("a,,400,0.5", 3, "nm")]
    [InlineData("a,sea lettuce,410,0.5", 3, "of")]
    [InlineData("b,kelp,400,0.5", 3, "spectrum")]
    public void A_long_table_names_the_line_at_fault(string line, int at, string field)
    {
        string rest = string.Concat(Enumerable.Range(1, 30).Select(i => $"a,,{405 + i * 10},0.5\n"));
        ImportFault fault = Given.Swatches($"sample,of,nm,value\na,kelp,400,0.5\n{line}\n{rest}").Faults[0];

        Assert.Equal((at, field), (fault.Line, fault.Field));
    }

    [Fact]
    public void The_same_sample_twice_is_refused_naming_both_lines()
    {
        ImportFault fault = Given.OnlyFault(Given.Swatches("sample_id,hex\na,#ccc\nb,#ccc\na,#ddd\n"));

        Assert.Equal(4, fault.Line);
        Assert.Contains("Line 2", fault.Remedy);
    }

    [Fact]
    public void A_backing_may_be_another_swatch_but_it_must_be_there()
    {
        SwatchTable table = Given.Read(Given.Swatches("sample_id,of,hex,backing\ncard,black card,#111,\nfilm,kelp,#455,sample:card\n"));
        Assert.Equal(SwatchBacking.OfSample("card"), table.Rows[1].Backing);

        Assert.Equal((2, "backing", "sample:card"), Given.OnlyFault(Given.Swatches("sample_id,hex,backing\nfilm,#455,sample:card\n")) is var f ? (f.Line, f.Field, f.Value) : default);
        Assert.Equal("backing", Given.OnlyFault(Given.Swatches("sample_id,hex,backing\nfilm,#455,sample:film\n")).Field);
    }

    [Theory]
    [InlineData("none", "none")]
    [InlineData("BLACK", "black")]
    [InlineData("#ccc", "#cccccc")]
    [InlineData("lab:40,-12.5,20", "lab:40,-12.5,20 D65/2")]
    [InlineData("Lab:0,0,0 d50/10", "lab:0,0,0 D50/10")]
    [InlineData("sample: card 3", "sample:card 3")]
    public void Backings_are_read_and_written(string text, string written)
    {
        Assert.Equal(written, SwatchBacking.TryParse(text)?.ToString());
    }

    [Theory]
    [InlineData("grey-ish")]
    [InlineData("lab:40,12")]
    [InlineData("lab:140,12,3")]
    [InlineData("lab:40,12,3 X99/2")]
    [InlineData("#12345")]
    [InlineData("sample:")]
    public void What_is_no_backing_is_refused(string text)
    {
        Assert.Equal((2, "backing"), Given.OnlyFault(Given.Swatches($"sample_id;hex;backing\nfilm;#455;{text}\n")) is var f ? (f.Line, f.Field) : default);
    }

    [Theory]
    [InlineData("coats", "2.5")]
    [InlineData("coats", "0")]
    [InlineData("thickness_um", "0")]
    [InlineData("date", "03/04/2024")]
    [InlineData("date", "2024-02-30")]
    [InlineData("specular", "maybe")]
    [InlineData("source", "horoscope")]
    [InlineData("finish", "metallic")]
    [InlineData("illuminant", "D99")]
    [InlineData("observer", "5")]
    public void A_field_that_cannot_be_is_refused(string column, string value)
    {
        ImportFault fault = Given.OnlyFault(Given.Swatches($"sample_id,L,a,b,{column}\nfilm,50,0,0,{value}\n"));

        Assert.Equal((2, column, value), (fault.Line, fault.Field, fault.Value));
    }

    [Fact]
    public void Rows_without_ids_are_numbered_and_ids_stand_for_recipes()
    {
        Assert.Equal([("1", "kelp"), ("2", "kelp")], Given.Read(Given.Swatches("of,hex\nkelp,#ccc\nkelp,#cdc\n")).Rows.Select(r => (r.SampleId, r.Of)));
        Assert.Equal(("kelp", "kelp"), Given.Read(Given.Swatches("sample_id,hex\nkelp,#ccc\n")).Rows.Select(r => (r.SampleId, r.Of)).Single());
        Assert.Equal("sample_id", Given.OnlyFault(Given.Swatches("colour\n#ccc\n")).Field);
    }

    [Fact]
    public void A_row_without_a_colour_is_refused()
    {
        Assert.Equal((3, "colour"), Given.OnlyFault(Given.Swatches("sample_id,hex\na,#ccc\nb,\n")) is var f ? (f.Line, f.Field) : default);
    }

    [Fact]
    public void Five_thousand_spectra_of_401_values_are_read_in_one_go()
    {
        var row = new StringBuilder();
        var text = new MemoryStream();
        using (var writer = new StreamWriter(text, leaveOpen: true))
        {
            writer.WriteLine("sample_id," + Spectra.Header(380, 780, 1));
            for (int i = 0; i < 5_000; i++)
            {
                row.Clear().Append('s').Append(i);
                for (int nm = 380; nm <= 780; nm++)
                {
                    row.Append(',').Append((0.5 + 0.4 * Math.Sin(nm * 0.01 + i)).ToString("R", System.Globalization.CultureInfo.InvariantCulture));
                }
                writer.WriteLine(row);
            }
        }
        text.Position = 0;
        Assert.InRange(text.Length, 30_000_000, ImportLimits.SwatchBytes);

        SwatchTable table = Given.Read(Given.Swatches(text));

        Assert.Equal(5_000, table.Rows.Count);
        Assert.Equal(0.5 + 0.4 * Math.Sin(3.8 + 4_999), Assert.IsType<SpectrumReading>(table.Rows[4_999].Color).Factors[0]);
    }

    [Fact]
    public void More_than_the_limit_is_refused_with_size_and_limit_even_where_the_size_is_not_known_before()
    {
        ImportFault fault = Given.OnlyFault(Given.Swatches(new EndlessStream()));

        Assert.Contains("more than 134217728 bytes", fault.Value);
        Assert.Contains("128 MiB", fault.Expected);
    }

    private sealed class EndlessStream : Stream
    {
        public override bool CanRead => true;
        public override bool CanSeek => false;
        public override bool CanWrite => false;
        public override long Length => throw new NotSupportedException();
        public override long Position { get => throw new NotSupportedException(); set => throw new NotSupportedException(); }
        public override void Flush() { }
        public override int Read(byte[] buffer, int offset, int count) { buffer.AsSpan(offset, count).Fill((byte)'a'); return count; }
        public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();
        public override void SetLength(long value) => throw new NotSupportedException();
        public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();
    }
}
